//! One fact of every kind, for the tests of their English.

use super::*;
use crate::frameset::{Bar, Figure, Material, Standard, TyreSize};
use crate::parts::Measure;
use crate::parts::standards::{
    Attachment, Axle, Beware, End, GapHoldsFor, Headset, HeadsetEnd, Hub, MountKind, PostRouting, Pull, RimWidth, Shell, Wheel,
};
use crate::parts::{
    BrakeReason, CarryingReason, ClearanceOf, CrankReason, DerailleurReason, DropoutReason, Extra, EyeletsFor, ForkLengthReason,
    HeadsetReason, HubReason, LengthLimit, Limits, NeedFact, RimReason, RotorReason, SeatPostReason, ShellReason, Slip,
    SteererReason, TyreReason,
};
use crate::units::Measured;

pub(super) fn tyre(text: &str) -> TyreSize {
    text.parse().unwrap()
}

pub(super) fn ends(text: &str) -> (HeadsetEnd, HeadsetEnd) {
    let headset = Headset::read(text).unwrap();
    (headset.upper, headset.lower)
}

pub(super) fn slip() -> Slip {
    Slip { standard: Standard::RearBrake, why: "no rotor is 1800: did you mean 180?".to_owned() }
}

pub(super) fn wheel_reasons() -> Vec<Reason> {
    let of = ClearanceOf::Frame;
    vec![
        Unknown::NotPublished(Standard::RearHub).into(),
        Unknown::NotUnderstood(slip()).into(),
        HubReason::Matches(Hub::read("135 x 10 quick release").unwrap()).into(),
        HubReason::OtherEndsUnused.into(),
        HubReason::AxleNotHeld { own: Axle::QuickRelease, wanted: Axle::Through(Some(12.0)), is_convertible: true }.into(),
        HubReason::AxleNotHeld { own: Axle::Nutted, wanted: Axle::Through(Some(12.0)), is_convertible: false }.into(),
        HubReason::ThickerAxle { spacing_mm: 100.0 }.into(),
        HubReason::AxlesDiffer { own_mm: 12.0, wanted_mm: 15.0 }.into(),
        HubReason::AxleUnknown { spacing_mm: 135.0, is_hubs: true }.into(),
        HubReason::AxleUnknown { spacing_mm: 135.0, is_hubs: false }.into(),
        HubReason::DiameterUnknown { spacing_mm: 110.0, is_hubs: true }.into(),
        HubReason::DiameterUnknown { spacing_mm: 110.0, is_hubs: false }.into(),
        HubReason::WithinRange { spacing_mm: 132.5, least_mm: 130.0, most_mm: 135.0, a_side_mm: 1.25 }.into(),
        HubReason::SpacingsDiffer { by_mm: 5.0 }.into(),
        HubReason::SpacingsDiffer { by_mm: -3.0 }.into(),
        HubReason::DependsOnAxle { is_hubs: false }.into(),
        HubReason::DependsOnAxle { is_hubs: true }.into(),
        HubReason::ClosedDropouts.into(),
        HubReason::TooMuchToColdSet { most_a_side_mm: 2.5 }.into(),
        HubReason::NeverColdSet(Material::Carbon).into(),
        HubReason::MaterialUnknown.into(),
        HubReason::NoSpacing.into(),
        BrakeReason::Matches(MountKind::Flat).into(),
        BrakeReason::KindsDiffer { own: MountKind::Post, mount: MountKind::International }.into(),
        BrakeReason::KindsDiffer { own: MountKind::Post, mount: MountKind::RimBosses }.into(),
        RotorReason::NoDiscMount(MountKind::RimBosses).into(),
        RotorReason::NoDiscMount(MountKind::RimHole).into(),
        RotorReason::TooLarge { most_mm: 180.0 }.into(),
        RotorReason::TooSmall { native_mm: 180.0 }.into(),
        RotorReason::MadeForIt { native_mm: 160.0 }.into(),
        RotorReason::Allowed { native_mm: Some(160.0) }.into(),
        RotorReason::Allowed { native_mm: None }.into(),
        RotorReason::LargestUnknown { native_mm: 160.0 }.into(),
        RotorReason::NoSizePublished.into(),
        TyreReason::WheelNotPublished { bead_mm: 559.0, published_mm: vec![622.0, 584.0] }.into(),
        TyreReason::TooWide { tyre: tyre("60-622"), widest_mm: 57.0, of }.into(),
        TyreReason::Allowed { tyre: tyre("50-622"), widest_mm: 57.0, of, with_mudguards: true, left_mm: 3.5 }.into(),
        TyreReason::Allowed { tyre: tyre("57-622"), widest_mm: 57.0, of, with_mudguards: false, left_mm: 0.0 }.into(),
        TyreReason::CrankMovesChain { crank_mm: 49.0, a_side_mm: 3.0, widest_mm: 58.0 }.into(),
        TyreReason::TooWideWithMudguards { tyre: tyre("55-622"), of }.into(),
        TyreReason::WithMudguardsOnly.into(),
        TyreReason::PublishedForRings { most: 1, own: 2 }.into(),
        TyreReason::BuiltWidth { tyre: tyre("50-622"), inner_mm: 30.0, built: Measured::new(51.0, 0.8) }.into(),
        TyreReason::ClearWidth { tyre: tyre("50-622"), clear_mm: 62.0, of: ClearanceOf::Fork, gap_mm: 6.0 }.into(),
        TyreReason::ClearWidth { tyre: tyre("64-622"), clear_mm: 62.0, of: ClearanceOf::OwnFork, gap_mm: -1.0 }.into(),
        TyreReason::GapEnough { least_mm: 4.0, holds_for: GapHoldsFor::Racing }.into(),
        TyreReason::GapTooSmall { least_mm: 1.6 }.into(),
        TyreReason::FrameOnly.into(),
        RimReason::TyreDiffers { tyre: tyre("50-622"), bead_mm: 584.0 }.into(),
        RimReason::InnerWidth { tyre: tyre("57-622"), inner_mm: 13.0, made_for_mm: 31.35, width: RimWidth::FarOutside }.into(),
        RimReason::InnerWidth { tyre: tyre("57-622"), inner_mm: 19.0, made_for_mm: 31.35, width: RimWidth::Outside }.into(),
        RimReason::InnerWidth { tyre: tyre("50-622"), inner_mm: 25.0, made_for_mm: 27.5, width: RimWidth::Usual }.into(),
        RimReason::Published { bead_mm: 622.0 }.into(),
        RimReason::NotPublished { bead_mm: 559.0, published_mm: vec![622.0] }.into(),
    ]
}

pub(super) fn drive_reasons() -> Vec<Reason> {
    let shell = |text: &str| Shell::read(text).unwrap().row;
    vec![
        CrankReason::NothingPublished.into(),
        CrankReason::SeveralHubs { least_mm: 130.0, most_mm: 135.0 }.into(),
        CrankReason::SoldTogether { spacing_mm: 142.0, chainline_mm: 43.5 }.into(),
        CrankReason::Matches { spacing_mm: 142.0, chainline_mm: 49.0 }.into(),
        CrankReason::LinesDiffer { own_mm: 49.0, frame_mm: 52.0, out_mm: -3.0 }.into(),
        CrankReason::LinesDiffer { own_mm: 52.0, frame_mm: 49.0, out_mm: 3.0 }.into(),
        CrankReason::ChainRuns { rings: 1, lowest: Measured::new(3.1, 0.2), highest: Measured::new(-1.8, 0.1) }.into(),
        CrankReason::ChainRuns { rings: 2, lowest: Measured::new(1.9, 0.2), highest: Measured::new(-2.1, 0.2) }.into(),
        CrankReason::TooOblique { most_deg: 3.3 }.into(),
        CrankReason::DependsOnRings.into(),
        CrankReason::GearHubLineUnknown { own_mm: 49.0 }.into(),
        CrankReason::RingTooLarge { own: 42, most: 38 }.into(),
        CrankReason::SmallRingTooLarge { own: 34, most: 30 }.into(),
        CrankReason::RingLimitUnknown { rings: 2 }.into(),
        ShellReason::KindsDiffer { own: shell("BSA 68"), shell: shell("PF30 68") }.into(),
        ShellReason::WidthUnknown(shell("BSA")).into(),
        ShellReason::OwnWidthUnknown { shell: shell("BSA"), width_mm: 73.0 }.into(),
        ShellReason::Matches { shell: shell("BSA"), width_mm: 73.0 }.into(),
        ShellReason::WidthsDiffer { width_mm: 73.0, own_mm: vec![68.0] }.into(),
        DerailleurReason::FrameTakesNone.into(),
        DerailleurReason::NoneWanted.into(),
        DerailleurReason::ClampMatches { tube_mm: 28.6 }.into(),
        DerailleurReason::ClampWider { own_mm: 34.9, tube_mm: 28.6 }.into(),
        DerailleurReason::ClampNarrower { own_mm: 28.6, tube_mm: 34.9 }.into(),
        DerailleurReason::NeedsTab.into(),
        DerailleurReason::TabMatches.into(),
        DerailleurReason::DirectMatches.into(),
        DerailleurReason::TubeUnknown.into(),
        DerailleurReason::HeldDifferently.into(),
        DerailleurReason::PullsDiffer { own: Pull::Top, frame: Pull::Bottom }.into(),
        DerailleurReason::OwnStop.into(),
        DerailleurReason::NoHousingStop { own: Pull::Top }.into(),
        DerailleurReason::ChainlinesDiffer { own_mm: 43.5, crank_mm: 47.0 }.into(),
        DerailleurReason::CrankLineUnknown { own_mm: 45.0, least_mm: 43.0, most_mm: 50.5 }.into(),
        DerailleurReason::OutOfReach { own_mm: 43.5, crank_mm: 52.0 }.into(),
        DropoutReason::ChainNotTensioned.into(),
        DropoutReason::SoldForGearHub.into(),
        DropoutReason::GearHubNotPublished.into(),
        DropoutReason::SoldForBelt.into(),
        DropoutReason::BeltNotTensioned.into(),
        DropoutReason::BeltOpeningUnknown.into(),
    ]
}

pub(super) fn frame_reasons() -> Vec<Reason> {
    let (zs, ec) = ends("ZS44/28.6 | EC44/40");
    let (is, _) = ends("IS42/28.6 | IS52/40");
    let (jis, _) = ends("EC30/25.4 | EC30/26.4");
    let limits = |along_mm: f64, direct_mm: f64| Limits { least_mm: 460.0, most_mm: 495.0, along_mm, direct_mm };
    let rear = Wheel::Rear;
    let (wanted, too_few) = (vec![3, 3], vec![3, 3]);
    let there = vec![3, 3];
    let none = Vec::new();
    vec![
        HeadsetReason::BoreUnknown { own: zs, tube: ec }.into(),
        HeadsetReason::CodeNotEnough { own: is, beware: Beware::BearingAngles }.into(),
        HeadsetReason::IntegratedDiffers { own: zs, tube: is }.into(),
        HeadsetReason::BoresDiffer { own: jis, own_mm: 30.1, tube: zs, tube_mm: 44.0 }.into(),
        HeadsetReason::BoreToMeasure { own: jis, beware: Beware::JisBore }.into(),
        HeadsetReason::OtherCupSameBore { own: ec, tube: zs, bore_mm: 44.0 }.into(),
        HeadsetReason::Matches { own: zs, bore_mm: 44.0 }.into(),
        HeadsetReason::SteerersDiffer { own_mm: 28.6, fork_mm: 25.4 }.into(),
        HeadsetReason::RaceTooWide { own_mm: 40.0, fork_mm: 30.0 }.into(),
        HeadsetReason::RaceTooNarrow { own_mm: 30.0, fork_mm: 40.0 }.into(),
        SteererReason::NotEntered.into(),
        SteererReason::UpperMatches(zs).into(),
        SteererReason::UpperBoreTakesIt { upper: zs, bore_mm: 44.0 }.into(),
        SteererReason::UpperTooNarrow { steerer_mm: 38.1, upper: zs }.into(),
        SteererReason::LowerMatches(ec).into(),
        SteererReason::LowerWider { race_mm: 30.0, lower: ec }.into(),
        SteererReason::LowerBoreTakesExternalCup(ec).into(),
        SteererReason::LowerTooNarrow { race_mm: 40.0, lower: ec }.into(),
        ForkLengthReason::OwnLengthUnknown.into(),
        ForkLengthReason::Limit(LengthLimit::Within(limits(480.0, 482.1))).into(),
        ForkLengthReason::Limit(LengthLimit::Depends(limits(494.0, 496.0))).into(),
        ForkLengthReason::Limit(LengthLimit::Beyond(limits(510.0, 512.0))).into(),
        ForkLengthReason::Limit(LengthLimit::Unknown(Unknown::NotPublished(Standard::ForkLengths))).into(),
        ForkLengthReason::Limit(LengthLimit::Unknown(Unknown::NotUnderstood(slip()))).into(),
        ForkLengthReason::Stands {
            longer: Measured::new(20.0, 0.4),
            head_angle: Measured::new(-1.0, 0.02),
            trail: Measured::new(6.0, 0.3),
        }
        .into(),
        ForkLengthReason::Stands {
            longer: Measured::new(-20.0, 0.4),
            head_angle: Measured::new(1.0, 0.02),
            trail: Measured::new(-6.0, 0.3),
        }
        .into(),
        SeatPostReason::TooThick { post_mm: 31.6, tube_mm: 27.2 }.into(),
        SeatPostReason::NoInternalRouting.into(),
        SeatPostReason::TooShort { inside_mm: 50.0, least_mm: 54.4 }.into(),
        SeatPostReason::TooThin { by_mm: 0.2 }.into(),
        SeatPostReason::Thinner { post_mm: 27.2, tube_mm: 31.6 }.into(),
        SeatPostReason::Matches { tube_mm: 27.2 }.into(),
        CarryingReason::EnoughBosses { wanted, there }.into(),
        CarryingReason::TooFewBosses { wanted: too_few, there: none }.into(),
        CarryingReason::ForkEyeletsUnknown.into(),
        CarryingReason::Eyelets(EyeletsFor::Rack(rear)).into(),
        CarryingReason::OtherEyelets(EyeletsFor::Mudguard(Wheel::Front)).into(),
        CarryingReason::NoEyelets.into(),
        CarryingReason::MudguardOverTyre { end: rear, width_mm: 55.0, tyre: tyre("50-622") }.into(),
        CarryingReason::TyreTooWideForMudguards { end: rear, tyre_mm: 50.0, widest_mm: 45.0 }.into(),
        CarryingReason::ClearanceUnknown { end: rear, width_mm: 55.0 }.into(),
        CarryingReason::Passes { end: rear, clear_mm: 66.0 }.into(),
        CarryingReason::DoesNotPass { end: rear, width_mm: 70.0, clear_mm: 66.0 }.into(),
        CarryingReason::ClearanceForTyre { end: rear, tyre_mm: 55.0, with_mudguards: true }.into(),
        CarryingReason::ClearanceForTyreOnly { end: rear, tyre_mm: 55.0 }.into(),
    ]
}

pub(super) fn reasons() -> Vec<Reason> {
    [wheel_reasons(), drive_reasons(), frame_reasons()].concat()
}

pub(super) fn extras() -> Vec<Extra> {
    let (front, rear) = (Wheel::Front, Wheel::Rear);
    vec![
        Extra::AxleAdapter { from_mm: 15.0, to_mm: 12.0 },
        Extra::EndCaps { spacing_mm: 100.0, axle: Axle::Through(Some(12.0)) },
        Extra::EndCaps { spacing_mm: 135.0, axle: Axle::QuickRelease },
        Extra::ColdSet { end: rear, a_side_mm: 2.5, is_spread: true },
        Extra::ColdSet { end: front, a_side_mm: 2.5, is_spread: false },
        Extra::LessTyreClearance { by_mm: 6.0 },
        Extra::RingsClearStay,
        Extra::BrakeAdapter { from: MountKind::International, to: MountKind::Post },
        Extra::StackedBrakeAdapters,
        Extra::RotorAdapter { more_mm: 20.0 },
        Extra::MountsOwnAdapter,
        Extra::BoreMeasured,
        Extra::OtherCup { end: End::Lower, is_raised: true },
        Extra::ReducingRace { from_mm: 40.0, to_mm: 30.0 },
        Extra::UpperHeadsetAndStem { steerer_mm: 25.4 },
        Extra::LowerHeadsetOrRace { race_mm: 30.0 },
        Extra::ExternalLowerCup { bore_code: 44 },
        Extra::ChangedSteering,
        Extra::PostShim { from_mm: 27.2, to_mm: 31.6 },
        Extra::ForkClearanceMeasured,
        Extra::ChainTried,
        Extra::WithoutMudguards,
        Extra::CrankOfRings { most: 1 },
        Extra::CrankOfRings { most: 2 },
        Extra::TyreMeasured { most_mm: 50.0 },
        Extra::CrankOfSpacing { spacing_mm: 148.0 },
        Extra::GapPublishedFor(GapHoldsFor::UnitedStates),
        Extra::RackClamps,
        Extra::MudguardStraps(front),
        Extra::NarrowMudguard { end: rear, wider_mm: 2.0 },
        Extra::ClampShim { from_mm: 28.6, to_mm: 34.9 },
        Extra::BandWithTab { tube_mm: 28.6 },
        Extra::OffsetAdapter { by_mm: 3.5 },
        Extra::CablePulley,
        Extra::FullHousing,
        Extra::HousingStop,
        Extra::ChainTensioner,
        Extra::TorqueArm,
    ]
}

pub(super) fn facts() -> Vec<NeedFact> {
    let (upper, lower) = ends("ZS44/28.6 | EC44/40");
    vec![
        NeedFact::Unknown(Unknown::NotPublished(Standard::Eyelets)),
        NeedFact::BossesOnSide { there: 3, needed: 3 },
        NeedFact::CagesOnFork { there: 2, needed: 3 },
        NeedFact::CagesOnFrame { there: 2, needed: 2 },
        NeedFact::WidestTyre { widest_mm: 57.0, bead_mm: 622.0, with_spacing_mm: Some(148.0), is_of_frame_only: false },
        NeedFact::WidestTyre { widest_mm: 57.0, bead_mm: 622.0, with_spacing_mm: None, is_of_frame_only: true },
        NeedFact::WheelNotPublished { bead_mm: 559.0, published_mm: vec![622.0] },
        NeedFact::AxleUnknown { spacing_mm: 135.0 },
        NeedFact::Takes(Hub::read("142 x 12 through axle").unwrap()),
        NeedFact::NoDiscMount(MountKind::RimBosses),
        NeedFact::LargestRotor { most_mm: 180.0 },
        NeedFact::MountMadeFor { native_mm: 160.0 },
        NeedFact::LargestRotorUnknown,
        NeedFact::FigureUnknown(Figure::Stack),
        NeedFact::FigureIs(Figure::Stack, Measured::new(613.0, 0.3)),
        NeedFact::FigureIs(Figure::HeadAngle, Measured::new(70.0, 0.05)),
        NeedFact::MeasureUnknown(Measure::Bottles),
        NeedFact::MeasureUnknown(Measure::Price),
        NeedFact::MeasureIs(Measure::Price, Measured::exact(1250.5)),
        NeedFact::MeasureIs(Measure::LoadedWeight, Measured::new(98_900.0, 100.0)),
        NeedFact::MeasureIs(Measure::BagVolume, Measured::new(6.1, 0.2)),
        NeedFact::ForkUnknown,
        NeedFact::SuspensionFork { travel_mm: 100.0 },
        NeedFact::RigidFork,
        NeedFact::BrakeMounts { front: MountKind::International, rear: MountKind::Flat },
        NeedFact::Eyelets(EyeletsFor::BothMudguards),
        NeedFact::OtherEyelets(EyeletsFor::EitherMudguard),
        NeedFact::NoEyelets,
        NeedFact::DerailleurMount(Attachment::Clamp(28.6)),
        NeedFact::DerailleurMount(Attachment::None),
        NeedFact::DerailleurMount(Attachment::BrazeOn),
        NeedFact::DerailleurMount(Attachment::Direct),
        NeedFact::SoldForGearHub,
        NeedFact::ChainNotTensioned,
        NeedFact::GearHubNotPublished,
        NeedFact::OpensForBelt,
        NeedFact::BeltNotTensioned,
        NeedFact::BeltOpeningUnknown,
        NeedFact::DropperRouting(PostRouting { is_inside: true, is_outside: false }),
        NeedFact::DropperRouting(PostRouting { is_inside: false, is_outside: false }),
        NeedFact::BarUnknown,
        NeedFact::DesignedFor(Bar::Either),
        NeedFact::Shell(Shell::read("BSA 68").unwrap().row),
        NeedFact::HeadTube { upper, lower },
        NeedFact::MaterialUnknown,
        NeedFact::MadeOf(Material::Steel),
    ]
}
