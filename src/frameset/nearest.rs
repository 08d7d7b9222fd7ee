//! The nearest known name to one that was mistyped.

/// Longer than any known name, bytes: likening takes time that grows with its square.
const MOST_LIKENED: usize = 200;

/// The candidate most like `name` by Jaro–Winkler likeness, letters only and case folded, when it is at least 0.7 like
/// it; ties go to the first. A name longer than any is like none.
#[must_use]
pub fn nearest<'a>(name: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if name.len() > MOST_LIKENED {
        return None;
    }
    let folded = fold(name);
    let mut best: Option<(&str, f64)> = None;
    for candidate in candidates {
        let likeness = strsim::jaro_winkler(&folded, &fold(candidate));
        if likeness >= 0.7 && best.is_none_or(|(_, b)| likeness > b) {
            best = Some((candidate, likeness));
        }
    }
    best.map(|(candidate, _)| candidate)
}

fn fold(name: &str) -> String {
    name.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_mistyped_and_refuses_the_unlike() {
        let names = ["Stack", "Reach", "HeadAngle", "HeadTube", "SeatAngle"];
        assert_eq!(nearest("Stak", names), Some("Stack"));
        assert_eq!(nearest("head_angle", names), Some("HeadAngle"));
        assert_eq!(nearest("Headtub", names), Some("HeadTube"));
        assert_eq!(nearest("xyz", names), None);
        assert_eq!(nearest("", names), None);
        assert_eq!(nearest(&"Stack".repeat(1000), names), None);
    }
}
