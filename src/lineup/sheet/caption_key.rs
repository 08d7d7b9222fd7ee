//! Keys under which a line-up file keeps captions in the user's own words: `Trail: Quern Halter`.

/// Subject of a caption about frame-bag space.
pub(crate) const BAG_SPACE: &str = "Bag space";
/// What stands for the frame in the key of a caption that tells of no clear difference.
pub(crate) const NO_CLEAR_DIFFERENCE: &str = "no clear difference";

/// The key of a caption as it is written now, from one that may have been written by version 0.1.
pub(super) fn current_key(key: &str) -> String {
    let (subject, rest) = key.split_once(": ").unwrap_or((key, ""));
    let subject = if subject == "Room in the triangle" { BAG_SPACE } else { subject };
    match rest {
        "" => key.to_owned(),
        "within ±" => format!("{subject}: {NO_CLEAR_DIFFERENCE}"),
        rest => format!("{subject}: {rest}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_of_version_0_1_are_understood() {
        for (old, new) in [
            ("Trail: Quern Halter", "Trail: Quern Halter"),
            ("Room in the triangle: Quern Halter", "Bag space: Quern Halter"),
            ("Room in the triangle: within ±", "Bag space: no clear difference"),
            ("Weight: within ±", "Weight: no clear difference"),
            ("Trail: A: B", "Trail: A: B"),
            ("of my own", "of my own"),
        ] {
            assert_eq!(current_key(old), new);
            assert_eq!(current_key(new), new, "written again, it stays");
        }
    }
}
