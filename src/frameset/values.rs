//! Reading of single values with their checks: each refusal says what is wrong and the nearest right form, and happens
//! while the text is being read, so that it carries a line and a column.

use std::collections::BTreeMap;
use std::fmt::{self, Debug};
use std::marker::PhantomData;

use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};

use super::checks::{check_amount, check_currency, check_date, check_grams, within};
use super::conventions::{OwnMeasurement, Stated};
use super::figure::Figure;
use super::making::SmallPart;
use super::model::{Bend, Frameset, Size, Tube};
use super::value_error::ValueError;

/// Begins the message of a newer format, by which the reader of files knows it.
pub(super) const NEWER: &str = "newer format ";
/// Encloses, at the beginning of a message, the word that the reader of files is to point at: see [`pointing_at`].
pub(super) const POINTING: char = '\u{1}';

/// A refusal that is known only at the end of a longer thing, with the word in it that the reader of files is to point
/// at: its last occurrence before the end.
pub(super) fn pointing_at<E: Error>(word: &str, sentence: &str) -> E {
    E::custom(format!("{POINTING}{word}{POINTING}{sentence}"))
}

/// The file's format: 1 up to [`Frameset::FORMAT`], which it becomes.
pub(super) fn format<'de, D: Deserializer<'de>>(deserializer: D) -> Result<u32, D::Error> {
    known_format(deserializer, Frameset::FORMAT, "frame files")
}

/// A document's format: from 1 to the newest `known` one, which it becomes, since a document is written as the newest;
/// `documents` names them in the refusal.
///
/// # Errors
/// Format 0, and a format newer than this program, by name.
pub fn known_format<'de, D: Deserializer<'de>>(deserializer: D, known: u32, documents: &str) -> Result<u32, D::Error> {
    let format = u32::deserialize(deserializer)?;
    if format == 0 {
        return Err(D::Error::custom(format!("format 0 does not exist: write `format: {known}`")));
    }
    if format > known {
        return Err(D::Error::custom(format!(
            "{NEWER}{format}: this program knows {documents} up to format {known}; open it with a newer Spandrel"
        )));
    }
    Ok(known)
}

/// Printed figures, each once, each believable in its unit; −0 is read as 0. That the drop is shorter than the chainstay
/// follows from their ranges.
pub(super) fn figures<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<Figure, f64>, D::Error> {
    let mut map = checked_map(deserializer, |figure: &Figure, value: &f64| check_figure(*figure, *value))?;
    for value in map.values_mut() {
        *value += 0.0;
    }
    Ok(map)
}

/// Whether a printed value can be in the figure's unit at all.
///
/// # Errors
/// A figure that is computed, and a value outside its range, with the unit or slip that explains it where there is one.
pub fn check_figure(figure: Figure, value: f64) -> Result<(), ValueError> {
    let about = figure.about();
    if !about.in_files {
        return Err(ValueError::Computed(figure));
    }
    if !value.is_finite() {
        return Err(ValueError::NotFinite { figure, value });
    }
    if (about.low..=about.high).contains(&value) {
        return Ok(());
    }
    Err(ValueError::Figure { figure, value, looks_like: other_unit(figure, value) })
}

/// The unit or slip that brings an impossible value into range, and its factor.
fn other_unit(figure: Figure, value: f64) -> Option<(&'static str, f64)> {
    let about = figure.about();
    let slips: &[(&'static str, f64)] = if figure.is_angle() {
        &[
            ("radians", 180.0 / std::f64::consts::PI),
            ("a missing decimal point", 0.1),
            ("a decimal point one place too far left", 10.0),
        ]
    } else {
        &[("metres", 1000.0), ("centimetres", 10.0), ("inches", 25.4), ("a missing decimal point", 0.1)]
    };
    slips.iter().copied().find(|(_, factor)| (about.low..=about.high).contains(&(value * factor)))
}

/// Measured values, each once, each one that the figure can have, with a ± above zero.
pub(super) fn measurements<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<Figure, OwnMeasurement>, D::Error> {
    checked_map(deserializer, |figure: &Figure, measured: &OwnMeasurement| check_measurement(*figure, *measured))
}

/// Whether the user can have measured this of a figure.
///
/// # Errors
/// A value that the figure cannot have, a ± that is not above 0 or above 50.
pub fn check_measurement(figure: Figure, measured: OwnMeasurement) -> Result<(), ValueError> {
    check_figure(figure, measured.value)?;
    if measured.plus_minus > 0.0 && measured.plus_minus <= OwnMeasurement::WIDEST {
        return Ok(());
    }
    Err(ValueError::PlusMinus(measured.plus_minus))
}

/// Stated ways of measuring, each once.
pub(super) fn stated<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Stated>, D::Error> {
    let list = Vec::<Stated>::deserialize(deserializer)?;
    match list.iter().enumerate().find(|(i, s)| list[..*i].contains(s)) {
        Some((_, twice)) => Err(D::Error::custom(format!("{twice:?} is stated twice"))),
        None => Ok(list),
    }
}

/// Steps of single figures.
pub(super) fn steps<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<Figure, f64>, D::Error> {
    checked_map(deserializer, |figure: &Figure, step: &f64| {
        if !figure.about().in_files {
            return Err(ValueError::StepOfComputed(*figure));
        }
        check_step(*step).map_err(|why| ValueError::StepOf { figure: *figure, why: Box::new(why) })
    })
}

/// A printing step: finite and above zero.
pub(super) fn step<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let step = f64::deserialize(deserializer)?;
    check_step(step).map_err(D::Error::custom)?;
    Ok(step)
}

pub(super) fn check_step(step: f64) -> Result<(), ValueError> {
    if !step.is_finite() || step <= 0.0 {
        return Err(ValueError::StepNotAboveZero(step));
    }
    if step > 50.0 {
        return Err(ValueError::StepTooCoarse(step));
    }
    Ok(())
}

/// Sizes: at least one, each label once.
pub(super) fn sizes<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Size>, D::Error> {
    let sizes =
        checked_list(deserializer, "a list of sizes in brackets, `[(label: …, figures: …), …]`", |before, size: &Size| {
            if size.label.trim().is_empty() {
                return Err(("label", "a size has an empty label".to_owned()));
            }
            if before.iter().any(|s: &Size| s.label == size.label) {
                return Err(("label", format!("size \"{}\" is given twice", size.label)));
            }
            Ok(())
        })?;
    if sizes.is_empty() {
        return Err(D::Error::custom("no size is given: a frameset needs at least one"));
    }
    Ok(sizes)
}

/// Diameters of tubes, 5 to 120 mm.
pub(super) fn tube_diameters<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<Tube, f64>, D::Error> {
    checked_map(deserializer, |tube: &Tube, mm: &f64| within(*mm, 5.0, 120.0, &format!("diameter of {tube:?}"), "mm"))
}

/// Weights of small parts, 1 to 1500 g.
pub(super) fn small_parts<'de, D: Deserializer<'de>>(deserializer: D) -> Result<BTreeMap<SmallPart, f64>, D::Error> {
    checked_map(deserializer, |part: &SmallPart, grams: &f64| within(*grams, 1.0, 1500.0, &format!("the {}", part.label()), "g"))
}

/// A junction's distance along the tube it meets, −50 to 300 mm.
pub(super) fn junction<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    let mm = Option::<f64>::deserialize(deserializer)?;
    if let Some(mm) = mm {
        within(mm, -50.0, 300.0, "a junction's distance", "mm").map_err(D::Error::custom)?;
    }
    Ok(mm)
}

/// Bends: at most eight, along the tube in order.
pub(super) fn bends<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Bend>, D::Error> {
    checked_list(deserializer, "a list of bends in brackets, `[(along: …, off: …), …]`", |before, bend: &Bend| {
        if before.len() == 8 {
            return Err(("along", "more than eight bends in one tube".to_owned()));
        }
        if before.last().is_some_and(|b: &Bend| b.along >= bend.along) {
            return Err(("along", "bends stand in order along the tube, each `along` above the one before".to_owned()));
        }
        Ok(())
    })
}

/// Where a bend stands along its tube, above 0 and below 1.
pub(super) fn along<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let along = f64::deserialize(deserializer)?;
    if along > 0.0 && along < 1.0 {
        return Ok(along);
    }
    Err(D::Error::custom(format!("a bend's `along` of {along} is not between 0 and 1: it is a share of the tube's length")))
}

/// How far a bend stands off the straight line, within 200 mm of it.
pub(super) fn off<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let mm = f64::deserialize(deserializer)?;
    within(mm, -200.0, 200.0, "a bend's `off`", "mm").map_err(D::Error::custom)?;
    Ok(mm)
}

/// Travel of a suspension fork, 0 to 300 mm.
pub(super) fn travel<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<f64>, D::Error> {
    let mm = Option::<f64>::deserialize(deserializer)?;
    if let Some(mm) = mm {
        within(mm, 0.0, 300.0, "travel", "mm").map_err(D::Error::custom)?;
    }
    Ok(mm)
}

/// A weight in grams, above zero and below 15 kg.
pub(super) fn grams<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
    let grams = f64::deserialize(deserializer)?;
    check_grams(grams).map_err(D::Error::custom)?;
    Ok(grams)
}

/// Decimal text of an amount of money: digits, at most one point, no sign.
pub(super) fn amount<'de, D: Deserializer<'de>>(deserializer: D) -> Result<String, D::Error> {
    let text = String::deserialize(deserializer)?;
    check_amount(&text).map_err(D::Error::custom)?;
    Ok(text)
}

/// A model year.
pub(super) fn year<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<i32>, D::Error> {
    match Option::<i32>::deserialize(deserializer)? {
        Some(year) if !(1900..2200).contains(&year) => {
            Err(D::Error::custom(format!("{year} is not a valid year: write for example 2026")))
        }
        year => Ok(year),
    }
}

/// A percentage as decimal text, 0 to 50.
pub(super) fn percent<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<String>, D::Error> {
    let text = Option::<String>::deserialize(deserializer)?;
    if let Some(text) = &text
        && (!text.bytes().all(|b| b.is_ascii_digit() || b == b'.')
            || !text.parse::<f64>().is_ok_and(|p| (0.0..=50.0).contains(&p)))
    {
        return Err(D::Error::custom(format!("tax rate \"{text}\" is not a percentage: write decimal text such as \"19\"")));
    }
    Ok(text)
}

/// Three capital letters, as ISO 4217 codes are.
pub(super) fn currency<'de, D: Deserializer<'de>>(deserializer: D) -> Result<String, D::Error> {
    let code = String::deserialize(deserializer)?;
    check_currency(&code).map_err(D::Error::custom)?;
    Ok(code)
}

/// A date as `2026-10-02`.
pub(super) fn date<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<String>, D::Error> {
    let text = Option::<String>::deserialize(deserializer)?;
    if let Some(text) = &text {
        check_date(text).map_err(D::Error::custom)?;
    }
    Ok(text)
}

/// A map whose keys may stand only once.
pub(super) fn unique_map<'de, D, K, V>(deserializer: D) -> Result<BTreeMap<K, V>, D::Error>
where
    D: Deserializer<'de>,
    K: Deserialize<'de> + Ord + Debug,
    V: Deserialize<'de>,
{
    checked_map(deserializer, |_: &K, _: &V| Ok(()))
}

/// A map whose entries pass `check`; a key that is there already and a value that does not pass are refused where they
/// stand, before the comma behind them is read.
fn checked_map<'de, D, K, V>(
    deserializer: D,
    check: impl Fn(&K, &V) -> Result<(), ValueError>,
) -> Result<BTreeMap<K, V>, D::Error>
where
    D: Deserializer<'de>,
    K: Deserialize<'de> + Ord + Debug,
    V: Deserialize<'de>,
{
    deserializer.deserialize_map(CheckedMap(check, PhantomData))
}

struct CheckedMap<K, V, C>(C, PhantomData<(K, V)>);

impl<'de, K, V, C> Visitor<'de> for CheckedMap<K, V, C>
where
    K: Deserialize<'de> + Ord + Debug,
    V: Deserialize<'de>,
    C: Fn(&K, &V) -> Result<(), ValueError>,
{
    type Value = BTreeMap<K, V>;
    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a map in braces, `{Name: value, …}`")
    }
    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<BTreeMap<K, V>, A::Error> {
        let mut map = BTreeMap::new();
        while let Some(key) = access.next_key_seed(NewKey(&map))? {
            let value = access.next_value_seed(PassingValue { key: &key, check: &self.0, value: PhantomData })?;
            map.insert(key, value);
        }
        Ok(map)
    }
}

/// A key that the map does not have yet.
struct NewKey<'a, K, V>(&'a BTreeMap<K, V>);

impl<'de, K: Deserialize<'de> + Ord + Debug, V> DeserializeSeed<'de> for NewKey<'_, K, V> {
    type Value = K;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<K, D::Error> {
        let key = K::deserialize(deserializer)?;
        if self.0.contains_key(&key) { Err(D::Error::custom(format!("{key:?} is given twice"))) } else { Ok(key) }
    }
}

/// A value that passes the check.
struct PassingValue<'a, K, V, C> {
    key: &'a K,
    check: &'a C,
    value: PhantomData<V>,
}

impl<'de, K, V: Deserialize<'de>, C: Fn(&K, &V) -> Result<(), ValueError>> DeserializeSeed<'de> for PassingValue<'_, K, V, C> {
    type Value = V;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<V, D::Error> {
        let value = V::deserialize(deserializer)?;
        (self.check)(self.key, &value).map_err(D::Error::custom)?;
        Ok(value)
    }
}

/// A list whose elements pass `check`, which is given those before and answers with the word to point at and what is
/// wrong. An element is refused where it ends, before the comma behind it is read.
///
/// # Errors
/// The check's, and the reader's own.
pub fn checked_list<'de, D, T, C>(deserializer: D, expecting: &'static str, check: C) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
    C: Fn(&[T], &T) -> Result<(), (&'static str, String)>,
{
    deserializer.deserialize_seq(CheckedList { expecting, check, element: PhantomData })
}

struct CheckedList<T, C> {
    expecting: &'static str,
    check: C,
    element: PhantomData<T>,
}

impl<'de, T: Deserialize<'de>, C: Fn(&[T], &T) -> Result<(), (&'static str, String)>> Visitor<'de> for CheckedList<T, C> {
    type Value = Vec<T>;
    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(self.expecting)
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Vec<T>, A::Error> {
        let mut list = Vec::new();
        while let Some(element) = access.next_element_seed(PassingElement { before: &list, check: &self.check })? {
            list.push(element);
        }
        Ok(list)
    }
}

/// An element that passes the check.
struct PassingElement<'a, T, C> {
    before: &'a [T],
    check: &'a C,
}

impl<'de, T: Deserialize<'de>, C: Fn(&[T], &T) -> Result<(), (&'static str, String)>> DeserializeSeed<'de>
    for PassingElement<'_, T, C>
{
    type Value = T;
    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<T, D::Error> {
        let element = T::deserialize(deserializer)?;
        (self.check)(self.before, &element).map_err(|(word, sentence)| pointing_at(word, &sentence))?;
        Ok(element)
    }
}
