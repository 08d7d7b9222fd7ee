//! Names of fields and values in files of format 1 that are other names now. They stay readable for ever and are written
//! as their new names; `docs/keys.md` shows them.

/// Old and new name, in the order of `docs/keys.md`. The same old name may stand twice, for different fields.
pub const RETIRED_NAMES: &[(&str, &str)] = &[
    ("printed_to", "rounded_to"),
    ("set_aside", "ignored"),
    ("ForkLength", "AxleToCrown"),
    ("ForkLengthAlong", "AxleToCrownAlongAxis"),
    ("ForkLengthStraight", "AxleToCrownDirect"),
    ("ChainstayLevel", "ChainstayHorizontal"),
    ("FrontCentreLevel", "FrontCentreHorizontal"),
    ("weighing", "weight_choices"),
    ("begins_from", "start_from"),
    ("Stated", "YourFactor"),
    ("BetweenWeighed", "BetweenWeighedSizes"),
    ("AsDrawn", "AsPublished"),
    ("stand_at", "align_at"),
    ("position", "stack_and_reach"),
    ("room", "bags"),
    ("clearance_mm", "gap_to_tubes_mm"),
    ("width_top_mm", "gusset_top_mm"),
    ("width_bottom_mm", "gusset_bottom_mm"),
    ("seam_mm", "seam_allowance_mm"),
    ("chain_ring_teeth", "chainring_teeth"),
    ("Straight", "Direct"),
    ("another", "fork_trial"),
    ("is_drawn", "drawn"),
    ("takes_listed_fork", "use_listed_fork"),
    ("upper_headset", "upper_headset_stack_height"),
    ("feet_held", "clipped_in"),
    ("worth", "price_and_climb"),
    ("rest_kg", "other_parts_kg"),
    ("ground", "background"),
    ("Paper", "Light"),
    ("ClearLight", "TransparentLight"),
    ("ClearDark", "TransparentDark"),
    ("blocks", "contents"),
    ("Overlay", "Outline"),
    ("Position", "StackAndReach"),
    ("Room", "Bags"),
    ("Price", "PriceAgainstWeight"),
    ("Worth", "PriceAndClimb"),
    ("Column", "BlogColumn"),
    ("A4Across", "A4Landscape"),
    ("A3Across", "A3Landscape"),
    ("moves", "animation"),
    ("rate", "frames_per_second"),
];

/// The names that are to be written among those that are read: an old name is left out where its new one is there too.
pub(super) fn current<'a>(names: &'a [&'a str]) -> impl Iterator<Item = &'a str> + Clone {
    let is_retired = |name: &str| RETIRED_NAMES.iter().any(|(old, new)| *old == name && names.contains(new));
    names.iter().copied().filter(move |name| !is_retired(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_with_a_successor_beside_them_are_left_out() {
        let names = ["ground", "background", "room", "Stack"];
        assert_eq!(current(&names).collect::<Vec<_>>(), ["background", "room", "Stack"]);
    }

    #[test]
    fn no_new_name_is_an_old_one_and_no_pair_stands_twice() {
        for (index, (old, new)) in RETIRED_NAMES.iter().enumerate() {
            assert!(RETIRED_NAMES.iter().all(|(o, _)| o != new), "{new} is old and new");
            assert!(RETIRED_NAMES.iter().skip(index + 1).all(|pair| pair != &(*old, *new)), "{old}");
        }
    }
}
