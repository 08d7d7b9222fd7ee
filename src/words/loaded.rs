//! Wheel loads, braking and self-steadying speeds in words.

use crate::loaded::{CriticalSpeeds, Modes, WheelLoads};
use crate::units::{MINUS, fixed, per_cent};

/// What the model is and is not, for whoever reads its numbers.
pub const MODEL_TEXT: &str = "This is a model of a rigid bicycle: hands off the bar, tyres that do not slip, no rider’s \
                              control. It says nothing of comfort, shimmy or safety. Loads, racks, forks and speeds follow the \
                              makers’ limits. Secure luggage, and try it slowly.";

/// The same in brief, for a picture whose footnotes tell of makers' limits.
pub const MODEL_IN_BRIEF: &str =
    "A model of a rigid bicycle with the hands off the bar. It says nothing of comfort, shimmy or safety.";

/// m/s in km/h.
pub(super) const KM_H: f64 = 3.6;

/// A speed as `15.5 km/h (4.29 m/s)`.
fn speed_text(speed_m_s: f64) -> String {
    format!("{} km/h ({} m/s)", fixed(speed_m_s * KM_H, 1), fixed(speed_m_s, 2))
}

/// In which speeds a bicycle steadies itself, in one sentence.
#[must_use]
pub fn self_steady_text(speeds: &CriticalSpeeds) -> String {
    let range = |(from, to): &(f64, f64)| match (*from > 0.0, to.is_finite()) {
        (false, false) => "at every speed".to_owned(),
        (false, true) => format!("up to {}", speed_text(*to)),
        (true, false) => format!("from {} upwards", speed_text(*from)),
        (true, true) => format!("from {} to {}", speed_text(*from), speed_text(*to)),
    };
    match speeds.self_steady.as_slice() {
        [] => "The bicycle steadies itself at no speed.".to_owned(),
        ranges => format!("The bicycle steadies itself {}.", ranges.iter().map(range).collect::<Vec<_>>().join(", and ")),
    }
}

/// A bicycle given by its parameters, as text: wheel loads, braking, speeds, and the eigenvalues at `modes`' speeds, m/s.
#[must_use]
pub fn bicycle_text(loads: &WheelLoads, speeds: &CriticalSpeeds, modes: &[(f64, Option<Modes>)]) -> String {
    let mut lines = vec![
        format!(
            "The front wheel carries {} of {} kg.",
            per_cent(&fixed(loads.front_share() * 100.0, 1)),
            fixed(loads.mass_kg, 1)
        ),
        format!("In braking on the level the rear wheel lifts at {} × gravity.", fixed(loads.pitch_over(), 2)),
        self_steady_text(speeds),
    ];
    let critical = [("Weave speed", speeds.weave), ("Capsize speed", speeds.capsize)];
    lines.extend(critical.into_iter().map(|(name, speed)| format!("{name}: {}.", speed.map_or("none".to_owned(), speed_text))));
    for (speed, found) in modes {
        let values = found.iter().flatten().map(|mode| {
            let swing = match mode.im {
                0.0 => String::new(),
                im if im > 0.0 => format!(" + {}i", fixed(im, 3)),
                im => format!(" {MINUS} {}i", fixed(-im, 3)),
            };
            format!("{}{swing}", fixed(mode.re, 3))
        });
        lines.push(format!("Eigenvalues at {} m/s: {} 1/s.", fixed(*speed, 2), values.collect::<Vec<_>>().join(", ")));
    }
    lines.push(MODEL_TEXT.to_owned());
    lines.join("\n") + "\n"
}
