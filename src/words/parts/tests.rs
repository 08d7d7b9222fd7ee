//! Every reason, extra, need fact and caution has its sentence, in both units; none is long, none shows a metric length where
//! inches are chosen.

use std::collections::BTreeSet;

use super::facts_tests::*;
use super::*;
use crate::frameset::Standard;
use crate::parts::standards::{BORES, CLAMPS, HUBS, Hub, POST_DIAMETERS, ROTORS, SHELLS, SPACINGS, STEERERS, Wheel};
use crate::parts::{Answer, Caution, Correction, Extra, Fit, HubReason, Look, Met, NeedFact, NeedReason, PutOn, Source};
use crate::units::Measured;

/// One line a fact: its code, its English, and the same with inches where that differs.
fn told<T>(facts: &[T], code: impl Fn(&T) -> &'static str, text: impl Fn(System, &T) -> String) -> String {
    let lines = facts.iter().map(|fact| {
        let (metric, inches) = (text(System::Metric, fact), text(System::Imperial, fact));
        let inches = if metric == inches { String::new() } else { format!("\n    {inches}") };
        format!("{}: {metric}{inches}", code(fact)).replace('\u{2009}', " ")
    });
    lines.collect::<Vec<_>>().join("\n")
}

fn answer_with(fact: &NeedFact) -> Answer {
    Answer { met: Met::Met, reasons: vec![NeedReason { end: None, fact: fact.clone() }] }
}

fn extra_alone(units: System, extra: &Extra) -> String {
    extras_text(units, &[*extra])
}

/// All English of this module, with its units.
fn everything(units: System) -> Vec<String> {
    let mut all: Vec<String> = reasons().iter().map(|r| reason_text(units, r)).collect();
    all.extend(extras().iter().map(|e| extras::extras_sentences(units, &[*e])));
    all.extend(facts().iter().map(|f| answer_text(units, &answer_with(f))));
    all.extend([Caution::TyreGap, Caution::ColdSetting, Caution::ForkLength, Caution::Rotor].map(|c| caution_text(c).to_owned()));
    all.extend([Caution::PostInsertion, Caution::Spacers, Caution::Toe, Caution::Headset].map(|c| caution_text(c).to_owned()));
    all
}

#[test]
fn no_finding_is_without_its_sentence() {
    let codes = |codes: Vec<&'static str>| codes.into_iter().collect::<BTreeSet<_>>();
    assert_eq!(codes(reasons().iter().map(Reason::code).collect()), codes(Reason::codes()));
    assert_eq!(codes(extras().iter().map(Extra::code).collect()), codes(Extra::CODES.to_vec()));
    assert_eq!(codes(facts().iter().map(NeedFact::code).collect()), codes(NeedFact::CODES.to_vec()));
}

#[test]
fn sentences_are_short() {
    for text in everything(System::Metric) {
        for sentence in text.replace("\u{2009}±\u{2009}", "±").split_inclusive(['.', '?', ';', ':']).flat_map(|s| s.split(". "))
        {
            let words = sentence.split_whitespace().count();
            assert!(words <= 20, "{words} words: {sentence}");
        }
        assert!(text.ends_with(['.', '?']), "{text}");
        assert!(text.starts_with(|c: char| c.is_uppercase() || c.is_ascii_digit()), "{text}");
    }
}

#[test]
fn with_inches_only_trade_sizes_stay_metric() {
    let sizes = HUBS.iter().map(|r| r.spacing_mm).chain(ROTORS.iter().chain(POST_DIAMETERS).chain(CLAMPS).map(|r| r.mm));
    let sizes = sizes.chain(SPACINGS.iter().map(|r| r.spacing_mm)).chain(SHELLS.iter().flat_map(|r| r.widths_mm.to_vec()));
    let sizes = sizes.chain(STEERERS.iter().map(|s| s.1)).chain(BORES.iter().filter_map(|b| b.bore_mm));
    // Axles, bolts of brake mounts, adapters, bores of shells and of JIS head tubes, and dropouts between two hubs.
    let sizes = sizes.chain([12.0, 15.0, 51.0, 74.0, 20.0, 46.0, 29.9, 132.5]);
    let sizes: BTreeSet<String> = sizes.map(crate::words::lengths::number).collect();
    for text in everything(System::Imperial) {
        for (at, _) in text.match_indices("\u{2009}mm").chain(text.match_indices(" mm")) {
            let number = text[..at].rsplit([' ', '+', '(']).next().unwrap_or_default();
            let number = number.parse::<f64>().map(crate::words::lengths::number).unwrap_or_default();
            assert!(sizes.contains(&number), "{number} mm is no trade size: {text}");
        }
    }
}

#[test]
fn reasons_of_wheels_and_brakes_in_english() {
    insta::assert_snapshot!(told(&wheel_reasons(), Reason::code, reason_text), @r"
    not_published: Not published: rear hub.
    not_understood: Published, but not understood: rear brake. No rotor is 1800: did you mean 180?
    hub_matches: Hub and dropouts are both 135 mm, quick release.
    hub_other_ends_unused: The hub's other end caps are not needed.
    hub_axle_not_held: The hub has a quick release; the dropouts are for a 12 mm through axle. With other end caps the flanges line up.
    hub_axle_not_held: The hub has a nutted axle; the dropouts are for a 12 mm through axle.
    hub_thicker_axle: Both are 100 mm wide, but the hub is made for a thicker axle.
    hub_axles_differ: The hub takes a 12 mm axle; the dropouts take 15 mm.
    hub_axle_unknown: Both are 135 mm wide, but the hub's axle is not entered.
    hub_axle_unknown: Both are 135 mm wide, but the frame's axle is not published.
    hub_axle_diameter_unknown: Both are 110 mm wide; the diameter of the hub's through axle is not entered.
    hub_axle_diameter_unknown: Both are 110 mm wide; the diameter of the frame's through axle is not published.
    hub_within_makers_range: The dropouts are 132.5 mm apart, and the maker allows hubs from 130 to 135 mm. Each side moves by 1.25 mm.
        The dropouts are 132.5 mm apart, and the maker allows hubs from 130 to 135 mm. Each side moves by 0.05 in.
    hub_spacings_differ: The hub is 5 mm wider than the dropouts, 2.5 mm a side.
        The hub is 0.2 in wider than the dropouts, 0.1 in a side.
    hub_spacings_differ: The hub is 3 mm narrower than the dropouts, 1.5 mm a side.
        The hub is 0.12 in narrower than the dropouts, 0.06 in a side.
    hub_depends_on_axle: It depends on the frame's axle, which is not published.
    hub_depends_on_axle: It depends on the hub's axle, which is not entered.
    hub_closed_dropouts: Dropouts for a through axle do not flex.
    hub_too_much_to_cold_set: Steel is cold-set by at most 2.5 mm a side.
        Steel is cold-set by at most 0.1 in a side.
    hub_material_never_cold_set: Carbon must never be cold-set.
    hub_material_unknown: Only steel can be cold-set, and the material is not published.
    hub_no_spacing: The hub's spacing is not entered.
    brake_matches: Caliper and mount are both flat mount.
    brake_mounts_differ: Caliper: post mount (bolts 74 mm apart). Mount: IS (bolts 51 mm apart).
    brake_mounts_differ: Caliper: post mount (bolts 74 mm apart). Mount: rim brake bosses.
    rotor_no_disc_mount: The mount is for a rim brake, not for a disc brake.
    rotor_no_disc_mount: The mount is for a rim brake, not for a disc brake.
    rotor_too_large: The maker allows rotors up to 180 mm.
    rotor_too_small: The mount starts at 180 mm; a smaller rotor does not fit.
    rotor_made_for_it: The mount is made for a 160 mm rotor.
    rotor_allowed: The mount is made for a 160 mm rotor, and the maker allows this one.
    rotor_allowed: The maker allows this rotor; the size without an adapter is not published.
    rotor_largest_unknown: The mount is made for a 160 mm rotor; the largest rotor is not published.
    rotor_no_size_published: The maker publishes no rotor size.
    tyre_wheel_not_published: The maker publishes clearance for wheel sizes 622 and 584 only, not for 559.
    tyre_too_wide: 60-622 is 3 mm wider than the widest tyre allowed on the frame, 57-622.
        60-622 is 0.12 in wider than the widest tyre allowed on the frame, 57-622.
    tyre_allowed: The maker allows up to 57-622 on the frame, with mudguards. 50-622 leaves 3.5 mm more clearance a side.
        The maker allows up to 57-622 on the frame, with mudguards. 50-622 leaves 0.14 in more clearance a side.
    tyre_allowed: The maker allows up to 57-622 on the frame. 57-622 is as wide as that.
    tyre_crank_moves_chain: A crank with a chainline of 49 mm moves the chain in by 3 mm. That leaves clearance for a tyre 58 mm wide.
        A crank with a chainline of 1.93 in moves the chain in by 0.12 in. That leaves clearance for a tyre 2.28 in wide.
    tyre_too_wide_with_mudguards: With mudguards, 55-622 is too wide for the frame. Without them it is allowed.
    tyre_clearance_with_mudguards_only: What is allowed without mudguards is not published.
    tyre_clearance_for_fewer_chainrings: The widest tyre is published for one chainring; the crank has 2 chainrings.
    tyre_built_width: On a rim 30 mm wide inside, 50-622 measures about 51.0 ± 1.6 mm.
        On a rim 1.18 in wide inside, 50-622 measures about 2.01 ± 0.06 in.
    tyre_clear_width: The clear width on the fork is 62 mm. 50-622 leaves a gap of 6 mm a side.
        The clear width on the fork is 2.44 in. 50-622 leaves a gap of 0.24 in a side.
    tyre_clear_width: The clear width on the frame's own fork is 62 mm. 64-622 is wider than that.
        The clear width on the frame's own fork is 2.44 in. 64-622 is wider than that.
    tyre_gap_enough: At least 4 mm is required of racing bicycles.
        At least 0.16 in is required of racing bicycles.
    tyre_gap_too_small: Every published rule requires at least 1.6 mm.
        Every published rule requires at least 0.06 in.
    tyre_clearance_of_frame_only: That is published for the frame, not for its fork.
    rim_tyre_differs: The tyre 50-622 of this list does not fit a 584 rim.
    rim_inner_width: A rim 13 mm wide inside is far outside the usual range for 57-622. That tyre is made for about 31 mm.
        A rim 0.51 in wide inside is far outside the usual range for 57-622. That tyre is made for about 1.2 in.
    rim_inner_width: A rim 19 mm wide inside is outside the usual range for 57-622. That tyre is made for about 31 mm.
        A rim 0.75 in wide inside is outside the usual range for 57-622. That tyre is made for about 1.2 in.
    rim_inner_width: A rim 25 mm wide inside is usual for 50-622. That tyre is made for about 28 mm.
        A rim 0.98 in wide inside is usual for 50-622. That tyre is made for about 1.1 in.
    rim_published: The maker publishes tyre clearance for wheel size 622.
    rim_not_published: The maker publishes clearance for wheel size 622 only, not for 559.
    ");
}

#[test]
fn reasons_of_the_drivetrain_in_english() {
    insta::assert_snapshot!(told(&drive_reasons(), Reason::code, reason_text), @r"
    crank_nothing_published: Neither crank spacing nor rear hub is published.
    crank_one_of_several_hubs: The dropouts take hubs from 130 to 135 mm; the one that suits the crank best is judged.
    crank_sold_with_hub: Cranks with a chainline of 43.5 mm are sold for 142 mm hubs.
        Cranks with a chainline of 1.71 in are sold for 142 mm hubs.
    crank_matches: Crank and frame are for 142 mm spacing: chainline 49 mm.
        Crank and frame are for 142 mm spacing: chainline 1.93 in.
    crank_chainlines_differ: The crank's chainline is 49 mm; the frame is made for 52 mm. The chain moves in by 3 mm.
        The crank's chainline is 1.93 in; the frame is made for 2.05 in. The chain moves in by 0.12 in.
    crank_chainlines_differ: The crank's chainline is 52 mm; the frame is made for 49 mm. The chain moves out by 3 mm.
        The crank's chainline is 2.05 in; the frame is made for 1.93 in. The chain moves out by 0.12 in.
    crank_chain_angle: With one chainring, the chain runs 3.1 ± 0.4° off straight in the lowest gear and 1.8 ± 0.2° in the highest.
    crank_chain_angle: With two chainrings, the chain runs 1.9 ± 0.4° off straight in the lowest gear and 2.1 ± 0.4° in the highest.
    crank_chain_too_oblique: A chain runs well up to about 3.3°.
    crank_depends_on_rings: It depends on the number of chainrings: enter 1x, 2x or 3x.
    crank_gear_hub_chainline_unknown: The crank's chainline is 49 mm; the gear hub's is not entered. Write it as in 135 nutted, chainline 54.
        The crank's chainline is 1.93 in; the gear hub's is not entered. Write it as in 135 nutted, chainline 54.
    crank_ring_too_large: The maker allows chainrings of up to 38 teeth; the largest here has 42.
    crank_small_ring_too_large: The maker allows a smallest chainring of up to 30 teeth; here it has 34.
    crank_ring_limit_unknown: The maker publishes the largest chainrings, but not for two chainrings.
    bottom_bracket_kinds_differ: The bottom bracket is BSA (threaded, 1.37 in × 24 tpi, left-hand on the drive side); the shell is PF30 (press-fit, 46 mm).
    bottom_bracket_shell_width_unknown: The shell is BSA; its width is not published.
    bottom_bracket_width_unknown: The shell is BSA, 73 mm wide; the bottom bracket's width is not entered.
    bottom_bracket_matches: Both are BSA, 73 mm wide.
    bottom_bracket_widths_differ: The shell is 73 mm wide; the bottom bracket is for 68 mm.
    front_derailleur_frame_takes_none: The frame takes no front derailleur.
    front_derailleur_none_wanted: No front derailleur is needed.
    front_derailleur_clamp_matches: Clamp and seat tube are both 28.6 mm.
    front_derailleur_clamp_wider: The clamp is 34.9 mm; the seat tube is only 28.6 mm.
    front_derailleur_clamp_narrower: A 28.6 mm clamp does not fit round a 34.9 mm seat tube.
    front_derailleur_needs_tab: The derailleur needs a tab, and the frame has none.
    front_derailleur_tab_matches: The frame has the tab that the derailleur needs.
    front_derailleur_direct_mount_matches: Frame and derailleur are both direct mount.
    front_derailleur_seat_tube_unknown: The frame has a tab; its seat tube diameter is not published.
    front_derailleur_mounts_differ: Frame and derailleur have different mounts.
    front_derailleur_pulls_differ: The derailleur is top pull; the frame's cable stop is for bottom pull.
    front_derailleur_own_stop: A front-pull derailleur has its own stop for the cable housing.
    front_derailleur_no_housing_stop: The derailleur is top pull; the frame has no stop for the cable housing.
    front_derailleur_chainlines_differ: The derailleur is for a 43.5 mm chainline; the crank's is 47 mm.
        The derailleur is for a 1.71 in chainline; the crank's is 1.85 in.
    front_derailleur_crank_chainline_unknown: The derailleur is for a 45 mm chainline; such cranks are sold with 43 mm to 50.5 mm. Enter the crank's chainline.
        The derailleur is for a 1.77 in chainline; such cranks are sold with 1.69 in to 1.99 in. Enter the crank's chainline.
    front_derailleur_out_of_reach: The derailleur is for a 43.5 mm chainline; the crank's is 52 mm. That is out of its reach.
        The derailleur is for a 1.71 in chainline; the crank's is 2.05 in. That is out of its reach.
    dropouts_do_not_tension_chain: Vertical dropouts do not tension a chain.
    dropouts_sold_for_gear_hub: The maker sells the frame for a gear hub.
    dropouts_gear_hub_not_published: The frame can tension a chain; a gear hub is not mentioned by the maker.
    dropouts_sold_for_belt: The maker sells the frame for a belt.
    dropouts_do_not_tension_belt: Vertical dropouts do not tension a belt.
    dropouts_belt_opening_unknown: The frame can tension a belt; whether it has an opening for one is not published.
    ");
}

#[test]
fn reasons_of_head_tube_fork_and_seat_post_in_english() {
    insta::assert_snapshot!(told(&frame_reasons(), Reason::code, reason_text), @r"
    headset_bore_unknown: The bore of ZS44/28.6 or EC44/40 is in no table.
    headset_code_not_enough: Both are IS42. The code does not give the bearing's angles: 36° × 45° and 45° × 45° both exist.
    headset_integrated_differs: ZS44/28.6 does not fit a head tube for IS42/28.6.
    headset_bores_differ: EC30/25.4 needs a bore of 30.1 mm; the head tube (ZS44/28.6) has 44 mm.
    headset_bore_to_measure: EC30/25.4 matches by its code. JIS head tubes have a bore of 29.85 to 29.90 mm.
    headset_other_cup_same_bore: EC44/40 and the published ZS44/28.6 have the same bore, 44 mm.
    headset_matches: ZS44/28.6 fits the head tube's bore of 44 mm.
    headset_steerers_differ: The headset is for a 28.6 mm steerer; the fork's is 25.4 mm.
    headset_race_too_wide: The headset's crown race is 40 mm; the fork's seat is narrower, 30 mm.
    headset_race_too_narrow: The fork's crown race seat of 40 mm does not fit a 30 mm race.
    fork_steerer_not_entered: The fork's steerer is not entered.
    fork_upper_end_matches: Upper end: ZS44/28.6 is for this steerer.
    fork_upper_bore_takes_steerer: Upper end: ZS44/28.6 is for a 28.6 mm steerer; its bore of 44 mm takes this one too.
    fork_upper_end_too_narrow: Upper end: a 38.1 mm steerer does not fit a head tube for ZS44/28.6.
    fork_lower_end_matches: Lower end: head tube and fork are both for the crown race of a steerer tapered to 1½ in.
    fork_lower_end_wider: Lower end: the fork's crown race seat is 30 mm; EC44/40 is for a wider one.
    fork_lower_bore_takes_external_cup: Lower end: the steerer is tapered; the bore of EC44/40 takes an external cup.
    fork_lower_end_too_narrow: Lower end: a 40 mm crown race does not fit a head tube for EC44/40.
    fork_own_length_unknown: The length of the frame's own fork is unknown.
    fork_length_within_limits: The maker allows forks from 460 to 495 mm; 480 mm is within that.
        The maker allows forks from 18.11 to 19.49 in; 18.9 in is within that.
    fork_length_depends_on_measuring: The maker allows forks from 460 to 495 mm. This fork has 494 mm along the steering axis and 496 mm directly. Borderline: it depends on how the maker measures.
        The maker allows forks from 18.11 to 19.49 in. This fork has 19.45 in along the steering axis and 19.53 in directly. Borderline: it depends on how the maker measures.
    fork_length_beyond_limits: The maker allows forks from 460 to 495 mm; 510 mm is not. Riding it can break the frame: ask the maker first.
        The maker allows forks from 18.11 to 19.49 in; 20.08 in is not. Riding it can break the frame: ask the maker first.
    fork_length_limits_unknown: The maker publishes no limits of fork length.
    fork_length_limits_unknown: Published, but not understood: rear brake. No rotor is 1800: did you mean 180?
    fork_length_differs: It is 20.0 ± 0.8 mm longer than the frame's own fork. Head angle 1.00 ± 0.04° slacker, trail 6.0 ± 0.6 mm more.
        It is 0.79 ± 0.03 in longer than the frame's own fork. Head angle 1.00 ± 0.04° slacker, trail 0.24 ± 0.02 in more.
    fork_length_differs: It is 20.0 ± 0.8 mm shorter than the frame's own fork. Head angle 1.00 ± 0.04° steeper, trail 6.0 ± 0.6 mm less.
        It is 0.79 ± 0.03 in shorter than the frame's own fork. Head angle 1.00 ± 0.04° steeper, trail 0.24 ± 0.02 in less.
    seat_post_too_thick: A 31.6 mm post does not fit a seat tube for 27.2 mm.
    seat_post_no_internal_routing: The post's cable runs inside, but the frame has no internal routing.
    seat_post_too_short: At this saddle height only about 50 mm of the post is inside; at least 54.4 mm is required.
        At this saddle height only about 2 in of the post is inside; at least 2.14 in is required.
    seat_post_too_thin: The post is 0.2 mm too thin, and no shim is that thin.
        The post is 0.01 in too thin, and no shim is that thin.
    seat_post_thinner: The post is 27.2 mm; the seat tube is for 31.6 mm.
    seat_post_matches: Post and seat tube are both 27.2 mm.
    bosses_enough: Bosses needed: 3 and 3. Published: 3 and 3.
    bosses_too_few: Bosses needed: 3 and 3. Published: none.
    eyelets_of_listed_fork_unknown: The eyelets of the listed fork are not entered.
    eyelets_published: The maker publishes eyelets for a rear rack.
    eyelets_for_other_things: The maker publishes eyelets, but none for a front mudguard.
    eyelets_none: There are no eyelets.
    mudguard_over_tyre: The rear mudguard is 55 mm wide; the tyre is 50-622.
        The rear mudguard is 2.17 in wide; the tyre is 50-622.
    mudguard_tyre_too_wide: With mudguards the maker allows rear tyres up to 45 mm wide; this one is 50 mm.
        With mudguards the maker allows rear tyres up to 1.77 in wide; this one is 1.97 in.
    mudguard_clearance_unknown: Clearance for a rear mudguard 55 mm wide is not published.
        Clearance for a rear mudguard 2.17 in wide is not published.
    mudguard_passes: The clear width at the rear is 66 mm.
        The clear width at the rear is 2.6 in.
    mudguard_does_not_pass: The rear mudguard is 70 mm wide; the clear width is only 66 mm.
        The rear mudguard is 2.76 in wide; the clear width is only 2.6 in.
    mudguard_tyre_clearance: The maker allows rear tyres up to 55 mm wide, with mudguards.
        The maker allows rear tyres up to 2.17 in wide, with mudguards.
    mudguard_tyre_clearance_only: The maker allows rear tyres up to 55 mm wide; a wider mudguard is not mentioned.
        The maker allows rear tyres up to 2.17 in wide; a wider mudguard is not mentioned.
    ");
}

#[test]
fn extras_in_english() {
    insta::assert_snapshot!(told(&extras(), Extra::code, extra_alone), @r"
    axle_adapter: end caps or a sleeve from a 15 mm to a 12 mm axle
    end_caps: end caps for 100 mm, 12 mm through axle, if the hub's maker offers them
    end_caps: end caps for 135 mm, quick release, if the hub's maker offers them
    cold_set: if the stays are spread (cold-set) by 2.5 mm a side
        if the stays are spread (cold-set) by 0.1 in a side
    cold_set: if the fork blades are squeezed in (cold-set) by 2.5 mm a side
        if the fork blades are squeezed in (cold-set) by 0.1 in a side
    less_tyre_clearance: if 6 mm less clearance for the rear tyre is enough
        if 0.24 in less clearance for the rear tyre is enough
    rings_clear_stay: if the chainrings clear the chainstay
    brake_adapter: a brake adapter from IS to post mount
    stacked_brake_adapters: two stacked brake adapters, which few makers allow
    rotor_adapter: a +20 mm brake adapter
    mounts_own_adapter: the brake adapter for this rotor
    measure_bore: if the head tube's bore is measured and matches
    other_cup: another type of lower cup, which raises that end by about 10 to 14 mm
        another type of lower cup, which raises that end by about 0.39 to 0.55 in
    reducing_race: a reducing crown race from 40 to 30 mm
    upper_headset_and_stem: an upper headset and a stem for a 25.4 mm steerer
    lower_headset_or_race: a lower headset or a reducing race for a 30 mm crown race seat
    external_lower_cup: an EC44/40 lower headset, which raises the front by about 10 to 14 mm
        an EC44/40 lower headset, which raises the front by about 0.39 to 0.55 in
    changed_steering: if the changed head angle and trail suit you
    seat_post_shim: a seat post shim from 27.2 to 31.6 mm
    measure_fork_clearance: if the fork's own clearance is measured and is enough
    try_chain: if the chain clears the tyre in its innermost gear
    without_mudguards: if the mudguards are left off
    crank_of_chainrings: a crank with one chainring
    crank_of_chainrings: a crank with at most 2 chainrings
    measure_tyre: if the tyre measures at most 50 mm on this rim
        if the tyre measures at most 1.97 in on this rim
    crank_of_spacing: a crank for 148 mm rear spacing
    smaller_gap: if the gap that is required of bicycles sold in the United States is enough
    rack_clamps: rack clamps or an axle that carries the rack, where the makers allow them
    mudguard_straps: mudguard straps at the front
    narrow_mudguard: if a mudguard only 2 mm wider than the rear tyre keeps off enough spray
        if a mudguard only 0.08 in wider than the rear tyre keeps off enough spray
    clamp_shim: a clamp shim from 28.6 to 34.9 mm
    band_with_tab: a clamp-on band with a tab for a 28.6 mm seat tube
    offset_adapter: an adapter that moves the derailleur out by 3.5 mm
        an adapter that moves the derailleur out by 0.14 in
    cable_pulley: a pulley that turns the derailleur cable round
    full_length_housing: cable housing in one piece up to the derailleur
    housing_stop: a clamp-on stop for the cable housing
    chain_tensioner: a chain tensioner
    torque_arm: a torque arm or washer for the gear hub
    ");
}

#[test]
fn needs_in_english() {
    insta::assert_snapshot!(told(&facts(), NeedFact::code, |units, fact| answer_text(units, &answer_with(fact))), @r"
    standard_unknown: Not published: eyelets.
    fork_bosses: Bosses on one side of the fork: 3. Needed: 3.
    fork_cages: Places for cages on the fork: 2. Needed: 3.
    frame_cages: Places for cages on the frame: 2. Needed: 2.
    widest_tyre: Tyres up to 57-622 with a crank for 148 mm spacing.
    widest_tyre: Tyres up to 57-622. That is published for the frame, not for its fork.
    wheel_not_published: The maker publishes clearance for wheel size 622 only, not for 559.
    axle_unknown: The dropouts are 135 mm apart; the axle is not published.
    hub: Hub 142 mm, 12 mm through axle.
    no_disc_mount: The mount is for a rim brake, not for a disc brake.
    largest_rotor: The maker allows rotors up to 180 mm.
    mount_made_for: The mount is made for a 160 mm rotor.
    largest_rotor_unknown: The largest rotor is not published.
    figure_unknown: Stack is unknown.
    figure: Stack 613.0 ± 0.6 mm.
        Stack 24.13 ± 0.02 in.
    figure: Head angle 70.00 ± 0.10°.
    measure_unknown: Bottles are unknown.
    measure_unknown: Price is unknown.
    measure: Price 1250.5.
    measure: Loaded total 98.9 ± 0.2 kg.
        Loaded total 218.0 ± 0.4 lb.
    measure: Frame bag 6.1 ± 0.4 l.
    fork_unknown: The maker does not publish the type of fork.
    suspension_fork: The frame has a suspension fork with 100 mm travel.
        The frame has a suspension fork with 3.94 in travel.
    rigid_fork: The frame has a rigid fork.
    brake_mounts: Front IS, rear flat mount.
    eyelets_published: The maker publishes eyelets for mudguards at both ends.
    eyelets_for_other_things: The maker publishes eyelets, but none for a mudguard at either end.
    eyelets_none: There are no eyelets.
    front_derailleur_mount: The frame takes a 28.6 mm clamp.
    front_derailleur_mount: The frame takes no front derailleur.
    front_derailleur_mount: The frame has a tab for one.
    front_derailleur_mount: The frame is for direct mount.
    sold_for_gear_hub: The maker sells the frame for a gear hub.
    chain_not_tensioned: Vertical dropouts need a chain tensioner for a gear hub.
    gear_hub_not_published: The frame can tension a chain; a gear hub is not mentioned by the maker.
    opens_for_belt: The frame has an opening for a belt.
    belt_not_tensioned: Vertical dropouts do not tension a belt.
    belt_opening_unknown: Whether the frame has an opening for a belt is not published.
    dropper_routing: The dropper cable runs inside.
    dropper_routing: The frame has no routing for a dropper cable.
    bar_unknown: The maker does not publish which bar the frame is designed for.
    designed_for_bar: The frame is designed for drop or flat bars.
    bottom_bracket_shell: The shell is BSA (threaded, 1.37 in × 24 tpi, left-hand on the drive side).
    head_tube: The head tube is ZS44/28.6 | EC44/40.
    material_unknown: The material is not published.
    material: The frame is made of steel.
    ");
}

#[test]
fn several_extras_are_listed() {
    let outcome = |extras: &[Extra], fit| Outcome {
        fit,
        extras: extras.to_vec(),
        reasons: vec![HubReason::NoSpacing.into()],
        numbers: Vec::new(),
        source: Source::Maker,
        caution: None,
    };
    let said = |extras: &[Extra]| fit_text(System::Metric, &outcome(extras, Fit::FitsWith)).replace('\u{2009}', " ");
    assert_eq!(said(&[Extra::ChainTensioner]), "fits with an extra part: a chain tensioner");
    assert_eq!(
        said(&[Extra::ChainTensioner, Extra::TorqueArm]),
        "fits with extra parts: a chain tensioner and a torque arm or washer for the gear hub"
    );
    assert_eq!(said(&[Extra::ChainTried]), "fits if the chain clears the tyre in its innermost gear");
    let cold_set = Extra::ColdSet { end: Wheel::Rear, a_side_mm: 2.5, is_spread: true };
    assert_eq!(
        said(&[Extra::TorqueArm, cold_set]),
        "fits with an extra part: a torque arm or washer for the gear hub; only if the stays are spread (cold-set) by 2.5 mm a side"
    );
    let name = |reason: Reason| fit_name(&Outcome { reasons: vec![reason], ..outcome(&[], Fit::NotPublished) });
    assert_eq!(name(Unknown::NotPublished(Standard::RearHub).into()), "not published");
    assert_eq!(name(HubReason::MaterialUnknown.into()), "unknown");
}

#[test]
fn both_ends_of_a_need_are_named() {
    let at = |end, fact| NeedReason { end: Some(end), fact };
    let takes = NeedFact::Takes(Hub::read("135 x 10 quick release").unwrap());
    let answer = Answer { met: Met::NotMet, reasons: vec![at(Wheel::Front, takes), at(Wheel::Rear, NeedFact::RigidFork)] };
    assert_eq!(
        answer_text(System::Metric, &answer).replace('\u{2009}', " "),
        "Front: hub 135 mm, quick release. Rear: the frame has a rigid fork."
    );
}

#[test]
fn a_change_is_told_with_its_units() {
    let put_on = PutOn {
        listed_fork: Some("Brindle touring fork".to_owned()),
        fork_length: Some(465.83),
        fork_offset: Some(45.0),
        sag: 10.0,
        front_tyre: Some(tyre("50-622")),
        ..PutOn::default()
    };
    insta::assert_snapshot!(told(&[put_on], |_| "put on", put_on_text), @r"
    put on: Brindle touring fork, 465.8 mm along the steering axis, less 10 mm of sag, offset 45 mm, front tyre 50-622
        Brindle touring fork, 18.34 in along the steering axis, less 0.39 in of sag, offset 1.77 in, front tyre 50-622
    ");
    assert_eq!(
        put_on_text(System::Metric, &PutOn { listed_fork: Some(String::new()), ..PutOn::default() }),
        "the fork from the parts list"
    );
    assert_eq!(put_on_text(System::Metric, &PutOn::default()), "");
}

#[test]
fn corrections_in_english() {
    let look = |look, travel, own_travel, published_travel| Correction {
        beyond: Measured::new(75.0, 9.0),
        look,
        travel,
        own_travel,
        published_travel,
    };
    let looks = [
        look(Look::Corrected, Some((80.0, 120.0)), None, Some(100.0)),
        look(Look::NotCorrected, None, None, None),
        look(Look::CannotTell, None, None, None),
        look(Look::Corrected, None, Some(120.0), None),
    ];
    insta::assert_snapshot!(told(&looks, |c| c.look.code(), correction_text), @r"
    corrected: The fork is 75 ± 18 mm longer than the wheel needs. The frame looks suspension-corrected for 80 to 120 mm of travel. The maker publishes 100 mm of travel.
        The fork is 3.0 ± 0.7 in longer than the wheel needs. The frame looks suspension-corrected for 3.15 to 4.72 in of travel. The maker publishes 3.94 in of travel.
    not_corrected: The fork is 75 ± 18 mm longer than the wheel needs. The frame does not look suspension-corrected. The maker publishes nothing about it.
        The fork is 3.0 ± 0.7 in longer than the wheel needs. The frame does not look suspension-corrected. The maker publishes nothing about it.
    cannot_tell: The fork is 75 ± 18 mm longer than the wheel needs. Whether the frame is suspension-corrected is borderline. The maker publishes nothing about it.
        The fork is 3.0 ± 0.7 in longer than the wheel needs. Whether the frame is suspension-corrected is borderline. The maker publishes nothing about it.
    corrected: The frame is designed for a suspension fork with 120 mm travel. The fork is 75 ± 18 mm longer than the wheel needs.
        The frame is designed for a suspension fork with 4.72 in travel. The fork is 3.0 ± 0.7 in longer than the wheel needs.
    ");
}
