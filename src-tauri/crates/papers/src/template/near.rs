//! Finds the known name that a person most likely meant.

/// Gives the nearest of the known names, if any is near enough to be meant.
pub(super) fn nearest<'n>(written: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let most = 1 + written.chars().count() / 4;
    let far = |name: &str| strsim::damerau_levenshtein(written, name);
    // Names are short; what was written may be anything.
    if written.len() > 100 {
        return None;
    }
    let near = known.into_iter().map(|name| (far(name), name)).filter(|(far, _)| *far <= most);
    near.min_by_key(|(far, _)| *far).map(|(_, name)| name)
}
