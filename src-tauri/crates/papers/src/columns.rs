//! Widths of a table's columns from what the cells need, for text and for PDF alike.

/// Shares `available` among columns that need at least `least` and would like `most`.
///
/// Columns get what they like if that fits. Otherwise each gets its least and the rest goes to
/// those that ask for more; if even the least does not fit, all shrink alike and words are broken.
pub(crate) fn share(least: &[f32], most: &[f32], available: f32) -> Vec<f32> {
    let wanted: f32 = most.iter().sum();
    if wanted <= available {
        return most.to_vec();
    }
    let needed: f32 = least.iter().sum();
    if needed >= available {
        let scale = if needed > 0.0 { available / needed } else { 1.0 };
        return least.iter().map(|w| w * scale).collect();
    }
    // A square root keeps one very long column from starving the others.
    let asks: Vec<f32> = least.iter().zip(most).map(|(least, most)| (most - least).max(0.0).sqrt()).collect();
    let mut widths = least.to_vec();
    let mut spare = available - needed;
    // Each round gives to those still below what they like; what they cannot use goes round again.
    for _ in 0..widths.len() {
        let total: f32 = (0..widths.len()).filter(|&n| most[n] > widths[n]).map(|n| asks[n]).sum();
        if total <= 0.0 || spare <= 0.01 {
            break;
        }
        let round = spare;
        for n in 0..widths.len() {
            if most[n] > widths[n] {
                let gain = (round * asks[n] / total).min(most[n] - widths[n]);
                widths[n] += gain;
                spare -= gain;
            }
        }
    }
    widths
}
