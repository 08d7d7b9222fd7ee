//! `spandrel loaded`: the speeds at which a bicycle with its rider and luggage steadies itself, what its wheels carry, and
//! when one lifts; of the frames of a line-up, or of one bicycle given by its parameters.

use std::fmt;
use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;
use serde::de::{Deserializer, MapAccess, Visitor};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::columns::table_text;
use super::loaded_json::Asked;
use spandrel::disk::{Loaded, load_argument, read_argument};
use spandrel::frameset::{FileKind, nearest};
use spandrel::lineup::{Findings, Lineup};
use spandrel::loaded::{
    BicycleParameters, CriticalSpeeds, LinearModel, Matrix2, PARAMETERS, Parameter, ParameterError, Quartic, WheelLoads, modes,
};
use spandrel::words::{MODEL_TEXT, bicycle_text, loaded_tables, rules_of_thumb_table};

/// Arguments of `loaded`.
#[derive(Debug, Args)]
pub(crate) struct LoadedArguments {
    /// A frame file or a line-up, whose settings have rider and luggage. `-` reads standard input.
    #[arg(required_unless_present = "bicycle", conflicts_with = "bicycle")]
    file: Option<PathBuf>,
    /// A JSON file with the 25 parameters of Meijaard et al. 2007, Table 1, and gravity, in SI units. `-` reads
    /// standard input.
    #[arg(long, value_name = "FILE")]
    bicycle: Option<PathBuf>,
    /// JSON, documented in docs/json.md.
    #[arg(long)]
    json: bool,
    /// Also print the eigenvalues at this speed, m/s. Can be given several times.
    #[arg(long, value_name = "SPEED", value_parser = speed)]
    speed: Vec<f64>,
}

/// Greatest speed that is accepted, m/s.
const FASTEST: f64 = 100.0;

fn speed(text: &str) -> Result<f64, String> {
    let is_speed = |value: &f64| (0.0..=FASTEST).contains(value);
    text.parse().ok().filter(is_speed).ok_or_else(|| format!("enter a speed of 0 to {FASTEST} m/s, for example 5"))
}

/// Why a file holds no bicycle.
#[derive(Debug, thiserror::Error)]
enum BicycleError {
    /// Not JSON, or not an object.
    #[error(":{line}:{column}: this is not a JSON object of numbers, such as {{\"w\": 1.02, \"c\": 0.08, …}}")]
    NotAnObject { line: usize, column: usize },
    /// A key stands twice.
    #[error(": `{key}` is given twice: keep one")]
    Twice { key: String },
    /// A key that is none of the parameters.
    #[error(": `{key}` is not a parameter{}. They are {}", likeness.map(|l| format!(": did you mean `{l}`?")).unwrap_or_default(), keys())]
    Unknown { key: String, likeness: Option<&'static str> },
    /// Missing parameters.
    #[error(": {} missing: {}", if keys.len() == 1 { "a parameter is" } else { "parameters are" }, listed(keys))]
    Missing { keys: Vec<&'static Parameter> },
    /// A value that is no number.
    #[error(": `{key}`: {value} is not a number, such as 0.08")]
    NotANumber { key: &'static str, value: String },
    /// A value out of its range, or bodies that cannot be.
    #[error(": {0}")]
    Parameter(#[from] ParameterError),
}

fn keys() -> String {
    PARAMETERS.iter().map(|p| p.key).collect::<Vec<_>>().join(", ")
}

fn listed(missing: &[&Parameter]) -> String {
    missing.iter().map(|p| format!("`{}` ({})", p.key, p.meaning)).collect::<Vec<_>>().join(", ")
}

/// An object's pairs in their order, those with one key too.
struct Pairs(Vec<(String, Value)>);

impl<'de> Deserialize<'de> for Pairs {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Reader;
        impl<'de> Visitor<'de> for Reader {
            type Value = Pairs;

            fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
                formatter.write_str("an object")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Pairs, A::Error> {
                let mut pairs = Vec::new();
                while let Some(pair) = map.next_entry()? {
                    pairs.push(pair);
                }
                Ok(Pairs(pairs))
            }
        }
        deserializer.deserialize_map(Reader)
    }
}

/// The bicycle that a file describes.
fn read_bicycle(bytes: &[u8]) -> Result<BicycleParameters, BicycleError> {
    let Pairs(pairs) = serde_json::from_slice(bytes)
        .map_err(|error| BicycleError::NotAnObject { line: error.line(), column: error.column() })?;
    for (place, (key, _)) in pairs.iter().enumerate() {
        if !PARAMETERS.iter().any(|p| p.key == key) {
            return Err(BicycleError::Unknown { key: key.clone(), likeness: nearest(key, PARAMETERS.iter().map(|p| p.key)) });
        }
        if pairs[..place].iter().any(|(other, _)| other == key) {
            return Err(BicycleError::Twice { key: key.clone() });
        }
    }
    let given = |parameter: &Parameter| pairs.iter().find(|(key, _)| key == parameter.key).map(|(_, value)| value);
    let missing: Vec<_> = PARAMETERS.iter().filter(|p| given(p).is_none()).collect();
    if !missing.is_empty() {
        return Err(BicycleError::Missing { keys: missing });
    }
    let number = |parameter: &'static Parameter| {
        let value = given(parameter).unwrap_or(&Value::Null);
        value.as_f64().ok_or_else(|| BicycleError::NotANumber { key: parameter.key, value: value.to_string() })
    };
    Ok(BicycleParameters::from_keys(number)?.checked()?)
}

/// What `--json` prints. Numbers are not rounded, so that they can be compared digit by digit.
#[derive(Serialize)]
#[expect(non_snake_case, reason = "the names of the paper's matrices")]
struct BicycleJson {
    M: Matrix2,
    C1: Matrix2,
    K0: Matrix2,
    K2: Matrix2,
    weave: Option<f64>,
    capsize: Option<f64>,
    self_steady: Vec<(f64, Option<f64>)>,
    front_share: f64,
    pitch_over_g: f64,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    eigenvalues: Vec<SpeedJson>,
}

#[derive(Serialize)]
struct SpeedJson {
    speed: f64,
    /// Real and imaginary parts.
    values: Vec<(f64, f64)>,
}

/// Prints what is known of a bicycle, or of the frames of a file.
pub(super) fn print(arguments: &LoadedArguments, out: &mut impl Write) -> Result<(), Vec<String>> {
    let text = match (&arguments.bicycle, &arguments.file) {
        (Some(bicycle), _) => bicycle_answer(bicycle, arguments)?,
        (None, Some(file)) => frames_answer(file, arguments)?,
        (None, None) => String::new(),
    };
    super::output::print(text.as_bytes(), out).map_err(|error| vec![error.to_string()])
}

fn frames_answer(file: &Path, arguments: &LoadedArguments) -> Result<String, Vec<String>> {
    let lineup = match load_argument(file).map_err(|problem| vec![problem.to_string()])? {
        Loaded::Frameset(frameset) => Lineup::from(*frameset),
        Loaded::Lineup(lineup) => *lineup,
    };
    let findings = Findings::of(&lineup);
    if arguments.json {
        let asked = Asked { lineup: &lineup, findings: &findings, speeds: &arguments.speed };
        return Ok(serde_json::to_string_pretty(&asked.answer()).map_err(|error| vec![error.to_string()])? + "\n");
    }
    let tables = loaded_tables(&lineup, &findings).chain([rules_of_thumb_table(&lineup, &findings)]);
    let tables: Vec<String> = tables.map(|table| table_text(&table)).collect();
    Ok(format!("{}\n{MODEL_TEXT}\n", tables.join("\n")))
}

fn bicycle_answer(file: &Path, arguments: &LoadedArguments) -> Result<String, Vec<String>> {
    let bytes = read_argument(file, FileKind::Parameters).map_err(|problem| vec![problem.to_string()])?;
    let bicycle = read_bicycle(&bytes).map_err(|error| vec![format!("{}{error}", file.display())])?;
    let model = LinearModel::of(&bicycle);
    let speeds = CriticalSpeeds::of(&Quartic::of(&model));
    let loads = WheelLoads::of(&bicycle);
    Ok(if arguments.json {
        let finite = |(from, to): &(f64, f64)| (*from, to.is_finite().then_some(*to));
        let at = |speed: &f64| {
            let values = modes(&model, *speed).into_iter().flatten().map(|mode| (mode.re, mode.im)).collect();
            SpeedJson { speed: *speed, values }
        };
        let answer = BicycleJson {
            M: model.mass,
            C1: model.damping,
            K0: model.stiffness,
            K2: model.speed_stiffness,
            weave: speeds.weave,
            capsize: speeds.capsize,
            self_steady: speeds.self_steady.iter().map(finite).collect(),
            front_share: loads.front_share(),
            pitch_over_g: loads.pitch_over(),
            eigenvalues: arguments.speed.iter().map(at).collect(),
        };
        serde_json::to_string_pretty(&answer).map_err(|error| vec![error.to_string()])? + "\n"
    } else {
        bicycle_text(&loads, &speeds, &arguments.speed.iter().map(|v| (*v, modes(&model, *v))).collect::<Vec<_>>())
    })
}
