//! Which names a template may use at one place: the view, and what `for` and `set` gave around it.

use super::near::nearest;
use super::shape::{LOOP, Shape, VIEW};
use crate::Language;

/// The names at one place.
#[derive(Default)]
pub(super) struct Scope {
    /// The language whose words answers are compared with; none where a template is only compiled.
    pub language: Option<Language>,
    frames: Vec<Frame>,
    /// Names that a tag gave which is closed by now, for the hint.
    gone: Vec<String>,
}

/// The names that one open tag gives.
#[derive(Default)]
struct Frame {
    names: Vec<(String, Option<&'static Shape>)>,
    is_loop: bool,
}

impl Scope {
    pub fn new(language: Option<Language>) -> Self {
        Self { language, ..Self::default() }
    }

    pub fn open(&mut self, is_loop: bool) {
        self.frames.push(Frame { names: Vec::new(), is_loop });
    }

    pub fn close(&mut self) {
        self.gone.extend(self.frames.pop().into_iter().flat_map(|frame| frame.names).map(|(name, _)| name));
    }

    /// Adds a name to the innermost open tag; `shape` is nothing where a flaw was found already.
    pub fn add(&mut self, name: &str, shape: Option<&'static Shape>) {
        if self.frames.is_empty() {
            self.open(false);
        }
        if let Some(frame) = self.frames.last_mut() {
            frame.names.push((name.to_owned(), shape));
        }
    }

    /// Tells whether a name means something here already.
    pub fn has(&self, name: &str) -> bool {
        name == "loop" || self.given(name).is_some() || VIEW.parts().iter().any(|part| part.name == name)
    }

    fn given(&self, name: &str) -> Option<Option<&'static Shape>> {
        let mut names = self.frames.iter().rev().flat_map(|frame| frame.names.iter().rev());
        names.find(|(given, _)| given == name).map(|(_, shape)| *shape)
    }

    /// Finds a name that stands first in a path: `Err` where there is none, `Ok(None)` where a flaw was
    /// found already in what it stands for.
    pub fn root(&self, name: &str) -> Result<Option<&'static Shape>, ()> {
        if let Some(shape) = self.given(name) {
            return Ok(shape);
        }
        if name == "loop" {
            return if self.frames.iter().any(|frame| frame.is_loop) { Ok(Some(&LOOP)) } else { Err(()) };
        }
        VIEW.parts().iter().find(|part| part.name == name).map(|part| Some(&part.shape)).ok_or(())
    }

    /// Finds a name inside what stands before it.
    pub fn step(
        &self,
        inside: &'static Shape,
        before: &str,
        step: &str,
    ) -> Result<&'static Shape, (String, Option<String>)> {
        if let Some(part) = inside.parts().iter().find(|part| part.name == step) {
            return Ok(&part.shape);
        }
        Err(match inside {
            Shape::List(_) => (
                format!("{before} is a list, so {before}.{step} has no meaning."),
                Some(format!("Go through it with {{% for item in {before} %}} and write item.{step}.")),
            ),
            Shape::Record(parts) => {
                let names: Vec<_> = parts.iter().map(|part| part.name.as_str()).collect();
                let near = nearest(step, names.iter().copied()).map(|near| format!("Did you mean {before}.{near}?"));
                let hint = near.or_else(|| elsewhere(step)).or_else(|| Some(few(before, &names)));
                (format!("There is no name \"{before}.{step}\"."), hint)
            }
            _ => (format!("{before} is {} and has no names inside.", inside.words()), None),
        })
    }

    /// The hint for a name that means nothing here; `whole` is the path that it begins.
    pub fn hint(&self, root: &str, whole: &str) -> Option<String> {
        if root == "loop" {
            return Some("It has a meaning inside {% for … %} only.".to_owned());
        }
        if self.gone.iter().any(|gone| gone == root) {
            return Some(format!("{root} has a meaning only up to the end of the tag in which it is given."));
        }
        let given = self.frames.iter().flat_map(|frame| frame.names.iter().map(|(name, _)| name.as_str()));
        let names = given.chain(VIEW.parts().iter().map(|part| part.name.as_str()));
        if let Some(near) = nearest(root, names) {
            let rest = whole.strip_prefix(root).unwrap_or_default();
            return Some(format!("Did you mean {near}{rest}?"));
        }
        elsewhere(whole.rsplit('.').next().unwrap_or(whole))
    }
}

/// Looks for a name in the whole view: the group in front of it was wrong or left out.
fn elsewhere(name: &str) -> Option<String> {
    fn look(shape: &Shape, before: &str, name: &str, found: &mut Vec<String>) {
        for part in shape.parts() {
            let path = format!("{before}{}", part.name);
            look(&part.shape, &format!("{path}."), name, found);
            if part.name == name {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    look(&VIEW, "", name, &mut found);
    match found.as_slice() {
        [] => None,
        [one] => Some(format!("Did you mean {one}?")),
        [first, second, ..] => Some(format!("Did you mean {first} or {second}?")),
    }
}

/// Names what there is, where it is little.
fn few(before: &str, names: &[&str]) -> String {
    let shown: Vec<_> = names.iter().take(8).copied().collect();
    let more = if names.len() > shown.len() { " and others" } else { "" };
    format!("{before} has {}{more}.", shown.join(", "))
}
