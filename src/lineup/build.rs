//! What it takes to build a bicycle on each frame: which parts of the list are used, what must be bought, what the complete
//! bicycle costs and weighs.
//!
//! Of several parts of one kind the first that fits is used. Invariant: what has no price or weight is counted as missing,
//! never as nothing; a difference between two frames is given only where both miss the same.

use rust_decimal::Decimal;

use super::document::Lineup;
use super::frame_findings::FrameFindings;
use super::price_and_climb::PriceAndClimb;
use crate::frameset::{FrameIndex, OnePerFrame, Part as FramesetPart};
use crate::money::{Charge, Money, NotPriced, offer};
use crate::parts::standards::{Axle, Wheel};
use crate::parts::{AXLE_KEYS, About, Candidate, Extra, Fit, PartKind, PartsList, Purchase, Stated, Statements, Verdict, check};
use crate::units::{COVERAGE_FACTOR, Mass, Measured};

/// What a row of a build is about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BuildItem {
    /// The frameset; the frame alone where the list's fork is used.
    Frameset,
    /// The list's fork.
    Fork,
    /// The part at this place of the list.
    Part(usize),
    /// An extra part that another needs, and at which wheel.
    Extra(Extra, Option<Wheel>),
    /// A part of this kind that is not listed, or of which none that is listed fits.
    Another(PartKind),
    /// A through axle.
    ThroughAxle(Wheel),
}

impl BuildItem {
    /// Key of the weight and price that the user entered for what is needed besides; `None` for what is listed.
    #[must_use]
    pub const fn besides_key(&self) -> Option<&'static str> {
        match self {
            Self::Extra(extra, _) => Some(extra.code()),
            Self::Another(kind) => Some(kind.key()),
            Self::ThroughAxle(Wheel::Front) => Some(AXLE_KEYS[0]),
            Self::ThroughAxle(Wheel::Rear) => Some(AXLE_KEYS[1]),
            Self::Frameset | Self::Fork | Self::Part(_) => None,
        }
    }

    /// Whether two rows are about the same thing, so that they stand in one row of a table.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        match (self.besides_key(), other.besides_key()) {
            // End caps for one spacing are not those for another, and each wheel needs its own.
            _ if matches!(self, Self::Extra(..)) => self == other,
            (Some(own), Some(other)) => own == other,
            (None, None) => self == other,
            _ => false,
        }
    }
}

/// What becomes of an item on a frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuildUse {
    /// Owned and used.
    Used,
    /// To be bought and used.
    ToBuy,
    /// Another of its kind is used.
    NotNeeded,
    /// It does not fit.
    CannotBeUsed,
}

impl BuildUse {
    /// Stable code, for JSON.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Used => "used",
            Self::ToBuy => "to_buy",
            Self::NotNeeded => "not_needed",
            Self::CannotBeUsed => "cannot_be_used",
        }
    }

    /// Whether it is on the bicycle.
    #[must_use]
    pub const fn is_on(self) -> bool {
        matches!(self, Self::Used | Self::ToBuy)
    }
}

/// A row of a build.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildRow {
    /// What it is about.
    pub item: BuildItem,
    /// What becomes of it.
    pub is: BuildUse,
    /// Whether it has to be checked: borderline, or not published.
    pub to_check: bool,
    /// Its weight, where it is known.
    pub mass: Option<Measured<Mass>>,
    /// Its price, where it is bought; why there is none.
    pub price: Option<Result<Charge, NotPriced>>,
}

/// A build against that on the reference.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildAgainst {
    /// How much dearer the complete bicycle is; `None` where a price is missing that the other does not miss, too.
    pub price: Option<Money>,
    /// How much heavier; `None` likewise.
    pub mass: Option<Measured<Mass>>,
}

/// What it takes to build on one frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Build {
    /// Frameset, parts in the list's order, what is needed besides.
    pub rows: Vec<BuildRow>,
    /// Sum of the known prices of parts to buy, without the frameset.
    pub extra: Money,
    /// Sum of the known prices, with the frameset's.
    pub price: Money,
    /// Sum of the known weights.
    pub mass: Measured<Mass>,
    /// Against the reference; `None` for the reference itself.
    pub against: Option<BuildAgainst>,
}

impl OnePerFrame for Build {}

impl Build {
    /// Listed items that do not fit.
    pub fn unusable(&self) -> impl Iterator<Item = &BuildItem> {
        self.rows.iter().filter(|r| r.is == BuildUse::CannotBeUsed).map(|r| &r.item)
    }

    /// Items on the bicycle whose price is missing.
    pub fn unpriced(&self) -> impl Iterator<Item = &BuildItem> {
        self.on().filter(|r| matches!(r.price, Some(Err(_)))).map(|r| &r.item)
    }

    /// Items on the bicycle whose weight is missing.
    pub fn unweighed(&self) -> impl Iterator<Item = &BuildItem> {
        self.on().filter(|r| r.mass.is_none()).map(|r| &r.item)
    }

    fn on(&self) -> impl Iterator<Item = &BuildRow> {
        self.rows.iter().filter(|r| r.is.is_on())
    }
}

/// Kinds of which another is bought where none that is listed fits. What a frame has no place for has no other.
const fn has_another(kind: PartKind) -> bool {
    use PartKind::{
        Belt, BottomBracket, Crank, ForkCages, FrameCages, FrontBrake, FrontDerailleur, FrontHub, FrontRack, FrontRotor,
        FrontTyre, GearHub, Headset, Mudguards, RearBrake, RearHub, RearRack, RearRotor, RearTyre, Rims, SeatPost, Tyre,
    };
    match kind {
        FrontHub | RearHub | Rims | Tyre | FrontTyre | RearTyre | Crank | BottomBracket | Headset | SeatPost | FrontBrake
        | RearBrake | FrontRotor | RearRotor | FrontDerailleur | GearHub => true,
        Belt | ForkCages | FrameCages | RearRack | FrontRack | Mudguards => false,
    }
}

/// The worst verdict on the part at a place; `None` where there is none.
fn fit_of(verdicts: &[Verdict], place: usize) -> Option<Fit> {
    verdicts.iter().filter(|v| matches!(v.about, About::Part(p, _) if p == place)).map(|v| v.outcome.fit).max()
}

/// Whether the frame takes no part of that kind at all.
fn takes_none(verdicts: &[Verdict], kind: PartKind) -> bool {
    let says_so = |v: &Verdict| v.outcome.reasons.iter().any(|r| r.code() == "front_derailleur_frame_takes_none");
    verdicts.iter().any(|v| v.kind == Some(kind) && says_so(v))
}

/// Places of the parts that are used: of each kind the first that fits, else the first that may.
fn chosen(list: &PartsList, verdicts: &[Verdict]) -> Vec<usize> {
    let is_used = |place: &usize| {
        let Some(kind) = list.parts.get(*place).map(|p| p.kind) else { return false };
        let of_kind = (0..list.parts.len()).filter(|p| list.parts.get(*p).is_some_and(|other| other.kind == kind));
        let rank = |p: usize| fit_of(verdicts, p).filter(|f| *f != Fit::DoesNotFit).map(|f| (f > Fit::FitsWith, p));
        of_kind.filter_map(rank).min().is_some_and(|(_, best)| best == *place)
    };
    (0..list.parts.len()).filter(is_used).collect()
}

/// The wheel that a verdict is about, if it is about one.
fn wheel_of(verdict: &Verdict) -> Option<Wheel> {
    use PartKind::{FrontBrake, FrontHub, FrontRotor, GearHub, RearBrake, RearHub, RearRotor};
    match (verdict.about, verdict.kind?) {
        (About::Part(_, Some(wheel)), _) => Some(wheel),
        (_, FrontHub | FrontBrake | FrontRotor) => Some(Wheel::Front),
        (_, RearHub | GearHub | RearBrake | RearRotor) => Some(Wheel::Rear),
        _ => None,
    }
}

/// Whether the list's fork fits.
fn takes_fork(verdicts: &[Verdict]) -> bool {
    let of_fork = |v: &&Verdict| matches!(v.about, About::ForkSteerer | About::ForkLength);
    verdicts.iter().filter(of_fork).all(|v| v.outcome.fit != Fit::DoesNotFit)
}

struct Building<'a> {
    lineup: &'a Lineup,
    frame: &'a FrameFindings,
    verdicts: &'a [Verdict],
    statements: &'a Statements,
    found: &'a PriceAndClimb,
}

impl Building<'_> {
    fn row(&self, item: BuildItem, is: BuildUse, to_check: bool, purchase: &Purchase) -> BuildRow {
        let settings = &self.lineup.settings;
        let u = |grams: f64| purchase.plus_minus.unwrap_or(grams * settings.weight.claimed_percent / 100.0) / COVERAGE_FACTOR;
        let price = (is == BuildUse::ToBuy).then(|| match purchase.published_price() {
            Some(price) => offer(std::slice::from_ref(&price), &settings.money).set,
            None => Err(NotPriced::NotPublished),
        });
        BuildRow { item, is, to_check, mass: purchase.grams.map(|grams| Measured::new(grams, u(grams))), price }
    }

    fn rows(&self) -> Vec<BuildRow> {
        let list = &self.lineup.settings.parts;
        let fork = list.fork.as_ref().filter(|_| takes_fork(self.verdicts));
        let part = if fork.is_some() { FramesetPart::Frame } else { FramesetPart::Frameset };
        let mut rows = vec![BuildRow {
            item: BuildItem::Frameset,
            is: BuildUse::ToBuy,
            to_check: false,
            mass: self.frame.weights.part(part).map(|w| w.mass),
            price: Some(self.price_of(part)),
        }];
        let bought = |purchase: &Purchase| if purchase.to_buy { BuildUse::ToBuy } else { BuildUse::Used };
        if let Some(listed) = &list.fork {
            let is = if fork.is_some() { bought(&listed.purchase) } else { BuildUse::CannotBeUsed };
            rows.push(self.row(BuildItem::Fork, is, false, &listed.purchase));
        }
        let places = chosen(list, self.verdicts);
        let parts = places.iter().filter_map(|p| list.parts.get(*p).cloned()).collect();
        let used = PartsList { parts, fork: fork.cloned(), besides: std::collections::BTreeMap::default() };
        let verdicts = if used.parts.len() == list.parts.len() && fork.is_some() == list.fork.is_some() {
            self.verdicts.to_vec()
        } else {
            check(&used, &self.candidate())
        };
        let mut besides: Vec<BuildItem> = Vec::new();
        let mut lacking: Vec<PartKind> = Vec::new();
        for (place, part) in list.parts.iter().enumerate() {
            let fit = match places.iter().position(|p| *p == place) {
                Some(at) => fit_of(&verdicts, at),
                None => fit_of(self.verdicts, place).filter(|f| *f == Fit::DoesNotFit),
            };
            let is = match (fit, places.contains(&place)) {
                (Some(Fit::DoesNotFit), _) => BuildUse::CannotBeUsed,
                (_, true) => bought(&part.purchase),
                (_, false) => BuildUse::NotNeeded,
            };
            let to_check = is.is_on() && matches!(fit, Some(Fit::Borderline | Fit::NotPublished));
            rows.push(self.row(BuildItem::Part(place), is, to_check, &part.purchase));
        }
        let is_on = |kind: PartKind| {
            let of_kind =
                |r: &BuildRow| matches!(r.item, BuildItem::Part(p) if list.parts.get(p).is_some_and(|part| part.kind == kind));
            rows.iter().any(|r| r.is.is_on() && of_kind(r))
        };
        for kind in PartKind::ALL {
            let is_listed = list.first(kind).is_some();
            let is_asked = is_listed && has_another(kind) && !takes_none(self.verdicts, kind);
            if (is_asked || self.is_always_needed(kind)) && !is_on(kind) {
                lacking.push(kind);
            }
        }
        for verdict in verdicts.iter().filter(|v| v.outcome.fit == Fit::FitsWith) {
            let wheel = wheel_of(verdict);
            let extras = verdict.outcome.extras.iter().filter(|extra| extra.is_part());
            besides.extend(extras.map(|extra| BuildItem::Extra(*extra, wheel)));
        }
        besides.extend(lacking.into_iter().map(BuildItem::Another));
        besides.extend(self.axles(fork.is_some()).into_iter().map(BuildItem::ThroughAxle));
        let mut told: Vec<BuildItem> = Vec::new();
        for item in besides {
            if told.iter().any(|t| t.is_same(&item)) {
                continue;
            }
            let purchase = item.besides_key().and_then(|key| list.besides.get(key)).cloned().unwrap_or_default();
            rows.push(self.row(item, BuildUse::ToBuy, false, &purchase));
            told.push(item);
        }
        rows
    }

    /// What the frameset costs, or the frame alone; where that is not sold, the frameset has to be bought all the same.
    fn price_of(&self, part: FramesetPart) -> Result<Charge, NotPriced> {
        let price = |part| self.found.offer.part(part).cloned().map_err(Clone::clone);
        match price(part) {
            Err(NotPriced::NotPublished) => price(FramesetPart::Frameset),
            price => price,
        }
    }

    fn candidate(&self) -> Candidate<'_> {
        Candidate {
            frameset: &self.frame.frameset,
            statements: self.statements,
            size: self.frame.size.of(&self.frame.as_published.sizes),
            saddle_height_mm: self.lineup.settings.rider.saddle.map(|s| s.height),
        }
    }

    /// Whether every bicycle on this frame has such a part, and the frame publishes which.
    fn is_always_needed(&self, kind: PartKind) -> bool {
        let said: &Statements = self.statements;
        match kind {
            PartKind::Headset => said.upper_headset.is().is_some(),
            PartKind::BottomBracket => said.bottom_bracket.is().is_some(),
            PartKind::SeatPost => said.seat_post.is().is_some(),
            _ => false,
        }
    }

    /// Ends that hold a through axle.
    fn axles(&self, has_listed_fork: bool) -> Vec<Wheel> {
        let said = self.statements;
        let is_through =
            |hub: &Stated<crate::parts::standards::Hub>| matches!(hub.is().and_then(|h| h.axle), Some(Axle::Through(_)));
        let ends = [(Wheel::Front, is_through(&said.front_hub) && !has_listed_fork), (Wheel::Rear, is_through(&said.rear_hub))];
        ends.into_iter().filter(|(_, is)| *is).map(|(end, _)| end).collect()
    }
}

/// What it takes to build on every frame, in the line-up's order.
pub(super) fn builds<'a>(
    lineup: &Lineup,
    frames: &[FrameFindings],
    fits: impl Iterator<Item = (&'a Statements, &'a [Verdict])>,
    found: &[PriceAndClimb],
) -> Vec<Build> {
    let settings = &lineup.settings;
    let none = Money { amount: Decimal::ZERO, currency: settings.money.currency };
    let mut all: Vec<Build> = frames
        .iter()
        .zip(fits)
        .zip(found)
        .map(|((frame, (statements, verdicts)), found)| {
            let rows = Building { lineup, frame, verdicts, statements, found }.rows();
            let prices = |from: usize| {
                let mut charges = rows.iter().skip(from).filter_map(|r| r.price.as_ref()?.as_ref().ok());
                let sum = charges.try_fold(Decimal::ZERO, |sum, c| sum.checked_add(c.money.amount));
                Money { amount: sum.unwrap_or_default(), ..none }
            };
            let (extra, price) = (prices(1), prices(0));
            let masses = rows.iter().filter(|r| r.is.is_on()).filter_map(|r| r.mass);
            let mass = masses.fold(Measured::exact(0.0), Measured::plus);
            Build { rows, extra, price, mass, against: None }
        })
        .collect();
    let Some(reference) = lineup.reference_index() else { return all };
    let Some(base) = reference.of(&all).cloned() else { return all };
    for (index, build) in FrameIndex::numbered(frames).map(|(i, _)| i).zip(&mut all) {
        if index == reference {
            continue;
        }
        let (own, other) = (index.of(frames), reference.of(frames));
        let is_alike = |own: Vec<&BuildItem>, other: Vec<&BuildItem>| {
            let has_frameset = !own.contains(&&BuildItem::Frameset) && !other.contains(&&BuildItem::Frameset);
            has_frameset && own.len() == other.len() && own.iter().all(|o| other.iter().any(|b| b.is_same(o)))
        };
        let price = is_alike(build.unpriced().collect(), base.unpriced().collect())
            .then(|| Money { amount: build.price.amount - base.price.amount, ..none });
        let mass =
            is_alike(build.unweighed().collect(), base.unweighed().collect()).then(|| mass_apart(build, &base, own, other));
        build.against = Some(BuildAgainst { price, mass: mass.flatten() });
    }
    all
}

/// How much heavier a build is: what both carry alike falls out, and what the framesets' weights share.
fn mass_apart(own: &Build, base: &Build, frame: Option<&FrameFindings>, other: Option<&FrameFindings>) -> Option<Measured<Mass>> {
    let is_in = |row: &BuildRow, build: &Build| build.on().any(|r| r.item.is_same(&row.item) && r.mass == row.mass);
    let only = |of: &Build, not_in: &Build| {
        let rows = of.on().filter(|r| r.item != BuildItem::Frameset && !is_in(r, not_in)).filter_map(|r| r.mass);
        rows.fold(Measured::exact(0.0), Measured::plus)
    };
    let has_fork = |build: &Build| build.on().any(|r| r.item == BuildItem::Fork);
    let part = match (has_fork(own), has_fork(base)) {
        (true, true) => Some(FramesetPart::Frame),
        (false, false) => Some(FramesetPart::Frameset),
        _ => None,
    };
    let framesets = if let Some(part) = part {
        frame?.weight_difference(other?, part)?
    } else {
        let of = |build: &Build| build.rows.first().and_then(|r| r.mass);
        of(own)?.minus(of(base)?)
    };
    Some(framesets.plus(only(own, base)).minus(only(base, own)))
}

#[cfg(test)]
mod tests {
    use super::BuildUse::{CannotBeUsed, ToBuy, Used};
    use super::*;
    use crate::frameset::read_frameset;
    use crate::lineup::Findings;
    use crate::parts::Part;

    fn frame(price: &str, grams: u32, standards: &str) -> crate::frameset::Frameset {
        let text = format!(
            "#![enable(implicit_some)]\nFrameset(format: 2, maker: \"Quern\", model: \"Halter\", sizes: [(label: \"M\", figures: \
             {{Stack: 600}})], weights: [(part: Frameset, size: \"M\", grams: {grams}, from: Claimed)], prices: [(part: Frameset, amount: \
             \"{price}\", currency: \"EUR\", tax: Included)], standards: {{{standards}}})"
        );
        read_frameset(text.as_bytes()).unwrap()
    }

    fn part(kind: PartKind, text: &str, purchase: &str) -> Part {
        Part::new(kind, text, "").unwrap().with_purchase(ron::from_str(purchase).unwrap())
    }

    const OWNED_148: (PartKind, &str, &str) = (PartKind::RearHub, "148 x 12 through axle", "(grams: Some(400))");
    const BOUGHT_142: (PartKind, &str, &str) =
        (PartKind::RearHub, "142 x 12 through axle", "(to_buy: true, grams: Some(350), price: Some(\"200.00 EUR\"))");

    /// A takes the hub that is owned; B is 150 EUR cheaper and needs one of 200 EUR, and each needs an axle.
    fn two(parts: &[(PartKind, &str, &str)]) -> Lineup {
        let mut lineup = Lineup::default();
        lineup.add(frame("1000.00", 2500, "RearHub: \"148 x 12 through axle\""), None);
        lineup.add(frame("850.00", 2400, "RearHub: \"142 x 12 through axle\""), None);
        lineup.settings.parts.parts = parts.iter().map(|(kind, text, purchase)| part(*kind, text, purchase)).collect();
        lineup
    }

    fn uses(build: &Build) -> Vec<(BuildItem, BuildUse)> {
        build.rows.iter().map(|r| (r.item, r.is)).collect()
    }

    #[test]
    fn the_first_of_a_kind_that_fits_is_used_and_the_difference_is_one_number() {
        let found = Findings::of(&two(&[OWNED_148, BOUGHT_142])).builds;
        let axle = (BuildItem::ThroughAxle(Wheel::Rear), ToBuy);
        let frameset = (BuildItem::Frameset, ToBuy);
        let hubs = |own, other| [(BuildItem::Part(0), own), (BuildItem::Part(1), other)];
        let [a, b] = [hubs(Used, CannotBeUsed), hubs(CannotBeUsed, ToBuy)];
        assert_eq!(uses(&found[0]), [frameset, a[0], a[1], axle]);
        assert_eq!(uses(&found[1]), [frameset, b[0], b[1], axle]);
        assert_eq!((found[0].extra.plain(), found[1].extra.plain()), ("0.00".to_owned(), "200.00".to_owned()));
        assert_eq!((found[0].price.plain(), found[1].price.plain()), ("1000.00".to_owned(), "1050.00".to_owned()));
        assert_eq!((found[0].mass.value, found[1].mass.value), (2900.0, 2750.0));
        // Both lack the price and weight of an axle, which is the same.
        let against = found[1].against.clone().unwrap();
        assert_eq!(against.price.unwrap().plain(), "50.00");
        assert_eq!((against.mass.unwrap().value, found[0].against.is_none()), (-150.0, true));
    }

    #[test]
    fn what_is_missing_on_one_frame_alone_leaves_the_difference_unknown() {
        let found = Findings::of(&two(&[OWNED_148])).builds;
        assert_eq!(uses(&found[1])[2], (BuildItem::Another(PartKind::RearHub), BuildUse::ToBuy));
        assert_eq!(found[1].against, Some(BuildAgainst { price: None, mass: None }));
        assert_eq!(found[1].unpriced().count(), 2, "hub and axle");
        let mut lineup = two(&[OWNED_148]);
        let hub = ron::from_str("(grams: Some(360), price: Some(\"180.00 EUR\"))").unwrap();
        lineup.settings.parts.besides.insert("rear_hub".to_owned(), hub);
        let found = Findings::of(&lineup).builds;
        let against = found[1].against.clone().unwrap();
        assert_eq!((against.price.unwrap().plain().as_str(), against.mass.unwrap().value), ("30.00", -140.0));
        // Without a frameset's price there is no difference, even where both lack it.
        for entry in &mut lineup.frames {
            std::sync::Arc::make_mut(&mut entry.frameset).prices.clear();
        }
        assert_eq!(Findings::of(&lineup).builds[1].against.clone().unwrap().price, None);
    }

    #[test]
    fn each_wheel_needs_its_own_extra_part() {
        let mut lineup = Lineup::default();
        let standards = "FrontHub: \"100 x 12 through axle\", RearHub: \"142 x 12 through axle\", FrontBrake: \"IS 160\", \
                         RearBrake: \"IS 160\"";
        lineup.add(frame("1000.00", 2500, standards), None);
        let parts = [
            (PartKind::FrontHub, "100 x 9 quick release"),
            (PartKind::RearHub, "135 x 10 quick release"),
            (PartKind::FrontBrake, "post mount"),
            (PartKind::RearBrake, "post mount"),
        ];
        lineup.settings.parts.parts = parts.map(|(kind, text)| part(kind, text, "()")).into();
        let extra = "(grams: Some(30), price: Some(\"20.00 EUR\"))";
        for key in ["end_caps", "brake_adapter"] {
            lineup.settings.parts.besides.insert(key.to_owned(), ron::from_str(extra).unwrap());
        }
        let build = &Findings::of(&lineup).builds[0];
        let wheels = |key: &str| {
            let of =
                |r: &BuildRow| if let BuildItem::Extra(e, w) = r.item { (e.code() == key).then_some(w).flatten() } else { None };
            build.rows.iter().filter_map(of).collect::<Vec<_>>()
        };
        assert_eq!(wheels("end_caps"), [Wheel::Front, Wheel::Rear]);
        assert_eq!(wheels("brake_adapter"), [Wheel::Front, Wheel::Rear], "alike, and yet two");
        assert_eq!(build.extra.plain(), "80.00");
    }

    #[test]
    fn a_frame_that_is_not_sold_alone_costs_what_its_frameset_costs() {
        let mut lineup = Lineup::default();
        lineup.add(frame("1000.00", 2500, "RearHub: \"148 x 12 through axle\""), None);
        lineup.settings.parts.fork = Some(crate::parts::ForkPart::rigid(420.0, 45.0));
        let build = &Findings::of(&lineup).builds[0];
        assert!(uses(build).contains(&(BuildItem::Fork, Used)), "{:?}", build.rows);
        assert_eq!(build.price.plain(), "1000.00");
        assert!(build.unpriced().all(|item| *item != BuildItem::Frameset));
    }

    #[test]
    fn what_both_carry_falls_out_of_the_difference() {
        let tyres = (PartKind::Tyre, "50-622", "(grams: Some(1200), plus_minus: Some(300))");
        let u = |parts: &[(PartKind, &str, &str)]| Findings::of(&two(parts)).builds[1].against.clone().unwrap().mass.unwrap().u;
        assert_eq!(u(&[OWNED_148, BOUGHT_142]), u(&[OWNED_148, BOUGHT_142, tyres]));
    }

    #[test]
    fn extras_and_parts_that_every_bicycle_has_are_bought_once() {
        let mut lineup = Lineup::default();
        let standards = "FrontDerailleur: \"28.6 clamp, no housing stop\", UpperHeadset: \"ZS44/28.6\", SeatPost: \"27.2\"";
        lineup.add(frame("1000.00", 2500, standards), None);
        let derailleur = (PartKind::FrontDerailleur, "braze-on, top pull", "()");
        lineup.settings.parts.parts =
            vec![part(derailleur.0, derailleur.1, derailleur.2), part(PartKind::SeatPost, "27.2 x 350", "()")];
        let build = &Findings::of(&lineup).builds[0];
        let besides: Vec<&str> = build.rows.iter().filter_map(|r| r.item.besides_key()).collect();
        assert_eq!(besides, ["band_with_tab", "housing_stop", "headset"]);
        // A frame that takes no front derailleur needs no other one.
        lineup.frames[0].frameset = std::sync::Arc::new(frame("1000.00", 2500, "FrontDerailleur: \"none\""));
        let build = &Findings::of(&lineup).builds[0];
        assert_eq!(uses(build)[1].1, BuildUse::CannotBeUsed);
        assert!(build.rows.iter().all(|r| r.item.besides_key().is_none()), "{:?}", build.rows);
    }
}
