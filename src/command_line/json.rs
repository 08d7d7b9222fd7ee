//! The JSON of `figures --json`: stable, documented in the README, checked by a test.
//!
//! Values are rounded to a tenth of a micrometre so that the same input gives the same bytes on every machine.

use serde::Serialize;
use serde_json::{Map, Value as Json};

use crate::frameset::{Figure, Frameset};
use crate::geometry::{Adjusted, AdjustedSize, Point, settled_by};

/// One frameset's answer.
#[derive(Serialize)]
pub(super) struct Frame<'a> {
    file: &'a str,
    maker: &'a str,
    model: &'a str,
    sizes: Vec<Size<'a>>,
}

#[derive(Serialize)]
struct Size<'a> {
    #[serde(rename = "size")]
    label: &'a str,
    figures: Map<String, Json>,
    points: Map<String, Json>,
    suspects: Vec<Json>,
    missing: Vec<&'static str>,
    settled_by: Map<String, Json>,
}

pub(super) fn frame<'a>(file: &'a str, frameset: &'a Frameset, adjusted: &'a Adjusted) -> Frame<'a> {
    let sizes = adjusted.sizes.iter().zip(&frameset.sizes).map(|(size, printed)| one_size(frameset, printed, size)).collect();
    Frame { file, maker: &frameset.maker, model: &frameset.model, sizes }
}

fn one_size<'a>(frameset: &Frameset, printed: &crate::frameset::Size, size: &'a AdjustedSize) -> Size<'a> {
    let mut figures = Map::new();
    for value in size.values().iter().filter(|v| !v.is_missing) {
        let mut entry = Map::new();
        entry.insert("value".to_owned(), number(value.value));
        entry.insert("u".to_owned(), number(value.u));
        entry.insert("unit".to_owned(), value.figure.file_unit().into());
        entry.insert("origin".to_owned(), value.origin.key().into());
        entry.insert("leans_on".to_owned(), value.leans_on.iter().map(|a| Json::from(a.key())).collect());
        if let Some(printed) = value.printed {
            entry.insert("printed".to_owned(), number(printed));
        }
        if value.is_set_aside {
            entry.insert("set_aside".to_owned(), true.into());
        }
        figures.insert(value.figure.key().to_owned(), entry.into());
    }
    let suspects = size
        .suspects
        .iter()
        .map(|s| {
            serde_json::json!({
                "figure": s.figure.key(),
                "printed": number(s.printed),
                "predicted": number(s.predicted),
                "u": number(s.u),
                "w": number(s.w),
                "grade": s.grade.key(),
                "explained_as_well_by": s.explained_as_well_by.iter().map(|f| f.key()).collect::<Vec<_>>(),
                "in_all_sizes": s.is_shared,
            })
        })
        .collect();
    let mut settled = Map::new();
    for missing in settled_by(frameset, printed, size) {
        let sets: Vec<Vec<&str>> = missing.sets.iter().map(|set| set.iter().map(|f| f.key()).collect()).collect();
        settled.insert(missing.figure.key().to_owned(), sets.into());
    }
    Size {
        label: &size.label,
        figures,
        points: points(size),
        suspects,
        missing: size.missing().map(Figure::key).collect(),
        settled_by: settled,
    }
}

/// The points that known figures fix.
fn points(size: &AdjustedSize) -> Map<String, Json> {
    let p = size.points();
    let known = |figures: &[Figure]| figures.iter().all(|f| !size.value(*f).is_missing);
    let head = known(&[Figure::Stack, Figure::Reach]);
    let tube = head && known(&[Figure::HeadAngle, Figure::HeadTube]);
    let fork = tube && known(&[Figure::ForkLengthAlong, Figure::ForkOffset]);
    let mut points = Map::new();
    for (name, point, is_known) in [
        ("rear_axle", p.rear_axle, known(&[Figure::Chainstay, Figure::BbDrop])),
        ("front_axle", p.front_axle, fork),
        ("head_top", p.head_top, head),
        ("head_bottom", p.head_bottom, tube),
        ("crown", p.crown, tube && known(&[Figure::LowerHeadset])),
        ("seat_top", p.seat_top, known(&[Figure::SeatAngle, Figure::SeatTube])),
    ] {
        if is_known {
            points.insert(name.to_owned(), pair(point));
        }
    }
    points
}

fn pair(point: Point<f64>) -> Json {
    vec![number(point.x), number(point.y)].into()
}

/// Rounded to four decimals, −0 as 0.
fn number(value: f64) -> Json {
    let rounded = (value * 1e4).round() / 1e4 + 0.0;
    serde_json::Number::from_f64(rounded).map_or(Json::Null, Json::Number)
}
