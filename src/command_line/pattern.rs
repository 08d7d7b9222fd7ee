//! `spandrel pattern`: the bag of one frame as a pattern on paper, exactly 1:1.

use std::io::Write;
use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::output::{self, OutputError};
use spandrel::disk::{FileProblem, Loaded, load_argument, today};
use spandrel::drawing::{Paper, pattern_scenes};
use spandrel::frameset::FrameIndex;
use spandrel::frameset::{TextKind, ValueError};
use spandrel::lineup::{Findings, Lineup, letter};
use spandrel::luggage::{BagPart, Cut};
use spandrel::publish::{self, PdfError};
use spandrel::units::Day;
use spandrel::words::no_pattern_text;

/// Arguments of `pattern`. What is not given is as in the line-up, or as in a new one.
#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub(crate) struct PatternArguments {
    /// A frame file or a line-up. `-` reads standard input.
    #[arg(value_name = "FRAME")]
    file: PathBuf,
    /// The size, for example 56. Without this, the line-up's size, or a frame file's middle size.
    #[arg(long)]
    size: Option<String>,
    /// The letter of a frame in a line-up. Without this, the reference.
    #[arg(long, value_name = "LETTER")]
    frame: Option<String>,
    /// The file to write: NAME.pdf or NAME.svg. `-` writes to standard output. An existing file is kept unless --replace
    /// is given.
    #[arg(long, value_name = "FILE")]
    to: PathBuf,
    /// Replace an existing file.
    #[arg(long)]
    replace: bool,
    /// The format, if the file name does not give it. Without this, standard output is PDF.
    #[arg(long, value_enum)]
    format: Option<FormatName>,
    /// The paper size. An SVG is always one large sheet.
    #[arg(long, value_enum)]
    paper: Option<PaperName>,
    /// Gap to tubes, mm.
    #[arg(long, value_name = "MM", value_parser = within::<0, 60>)]
    clearance: Option<f64>,
    /// Corner radius of the bag, mm.
    #[arg(long, value_name = "MM", value_parser = within::<0, 80>)]
    corners: Option<f64>,
    /// Seam allowance, mm.
    #[arg(long, value_name = "MM", value_parser = within::<0, 40>)]
    seam: Option<f64>,
    /// Width of the gusset at the top, mm.
    #[arg(long, value_name = "MM", value_parser = within::<10, 250>)]
    width_top: Option<f64>,
    /// Width of the gusset at the bottom, mm.
    #[arg(long, value_name = "MM", value_parser = within::<10, 250>)]
    width_bottom: Option<f64>,
    /// A full frame bag.
    #[arg(long, conflicts_with_all = ["above", "below_top_tube"])]
    full: bool,
    /// A partial bag with a horizontal cut line at this height above the bottom bracket, mm.
    #[arg(long, value_name = "MM", conflicts_with = "below_top_tube", value_parser = within::<-200, 1000>)]
    above: Option<f64>,
    /// A partial bag with a cut line along the top tube, at this distance below it, mm.
    #[arg(long, value_name = "MM", value_parser = within::<0, 1000>)]
    below_top_tube: Option<f64>,
    /// The date on the pattern, for example 2026-10-02. Without this, today (UTC).
    #[arg(long, value_name = "DAY", value_parser = day)]
    date: Option<Day>,
}

/// Names of formats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum FormatName {
    /// Pages to print
    Pdf,
    /// One sheet for drawing programs
    Svg,
}

/// Names of papers.
#[derive(Clone, Copy, Debug, ValueEnum)]
enum PaperName {
    /// 210 mm × 297 mm
    A4,
    /// 297 mm × 420 mm
    A3,
    /// US Letter, 8.5 in × 11 in
    Letter,
    /// One sheet as large as the pattern
    Sheet,
}

impl From<PaperName> for Paper {
    fn from(name: PaperName) -> Self {
        match name {
            PaperName::A4 => Self::A4,
            PaperName::A3 => Self::A3,
            PaperName::Letter => Self::Letter,
            PaperName::Sheet => Self::OneSheet,
        }
    }
}

/// Why a pattern is not written.
#[derive(Debug, thiserror::Error)]
enum PatternError {
    #[error("\"{text}\" is not a number of millimetres ({why})")]
    NotANumber { text: String, why: std::num::ParseFloatError },
    #[error("{text} mm is outside {low} to {high} mm")]
    OutOfRange { text: String, low: i16, high: i16 },
    #[error("{}: the name and --format differ: leave --format away, or change the name", .0.display())]
    FormatDiffers(PathBuf),
    #[error("{}: a pattern is written as NAME.pdf or NAME.svg", .0.display())]
    NoFormat(PathBuf),
    #[error("{}: an SVG is one large sheet; leave --paper away, or write NAME.pdf for pages", .0.display())]
    PaperForSvg(PathBuf),
    #[error("{}: --frame is for line-ups, and this is one frameset", .0.display())]
    NotALineup(PathBuf),
    #[error("{}: {why}", file.display())]
    Choice { file: PathBuf, why: ChoiceError },
    #[error("{}: {why}", to.display())]
    NotMade { to: PathBuf, why: PdfError },
    #[error("{0}")]
    Value(#[from] ValueError),
    #[error("{0}")]
    File(#[from] FileProblem),
    #[error("{0}")]
    Output(#[from] OutputError),
}

/// Why a frame or a size of a file has no pattern.
#[derive(Debug, thiserror::Error)]
enum ChoiceError {
    #[error("the line-up holds no frame")]
    Empty,
    #[error("no frame \"{asked}\": this line-up has {}", letters.join(", "))]
    NoFrame { asked: String, letters: Vec<String> },
    #[error("no size \"{asked}\": {name} has {}", labels.join(", "))]
    NoSize { asked: String, name: String, labels: Vec<String> },
    #[error("{name}, size {size}: {why}")]
    NoPattern { name: String, size: String, why: String },
}

fn within<const LOW: i16, const HIGH: i16>(text: &str) -> Result<f64, PatternError> {
    let value: f64 = text.replace(',', ".").parse().map_err(|why| PatternError::NotANumber { text: text.to_owned(), why })?;
    if value.is_finite() && (f64::from(LOW)..=f64::from(HIGH)).contains(&value) {
        return Ok(value);
    }
    Err(PatternError::OutOfRange { text: text.to_owned(), low: LOW, high: HIGH })
}

fn day(text: &str) -> Result<Day, ValueError> {
    Day::read(text).ok_or_else(|| ValueError::Date(text.to_owned()))
}

/// Writes the pattern.
pub(super) fn pattern(arguments: &PatternArguments, out: &mut dyn Write, is_terminal: bool) -> Result<(), Vec<String>> {
    write_pattern(arguments, out, is_terminal).map_err(|problem| vec![problem.to_string()])
}

/// The format: that asked for, or that of the name's ending, or PDF on standard output.
fn format(arguments: &PatternArguments) -> Result<FormatName, PatternError> {
    let to = &arguments.to;
    let named = match to.extension().map(std::ffi::OsStr::to_ascii_lowercase) {
        Some(ending) if ending == "pdf" => Some(FormatName::Pdf),
        Some(ending) if ending == "svg" => Some(FormatName::Svg),
        _ => None,
    };
    match (arguments.format, named) {
        (Some(asked), Some(named)) if asked != named => Err(PatternError::FormatDiffers(to.clone())),
        (asked, named) => asked
            .or(named)
            .or(output::is_standard(to).then_some(FormatName::Pdf))
            .ok_or_else(|| PatternError::NoFormat(to.clone())),
    }
}

fn write_pattern(arguments: &PatternArguments, out: &mut dyn Write, is_terminal: bool) -> Result<(), PatternError> {
    for (option, text) in [("--size", &arguments.size), ("--frame", &arguments.frame)] {
        TextKind::Name.check(option, text.as_deref().unwrap_or_default())?;
    }
    let of_file = |why| PatternError::Choice { file: arguments.file.clone(), why };
    let is_pdf = format(arguments)? == FormatName::Pdf;
    output::check(&arguments.to, arguments.replace)?;
    if is_pdf {
        output::check_terminal(&arguments.to)?;
    }
    let paper = match (is_pdf, arguments.paper) {
        (true, paper) => paper.map_or(Paper::A4, Paper::from),
        (false, None | Some(PaperName::Sheet)) => Paper::OneSheet,
        (false, Some(_)) => {
            return Err(PatternError::PaperForSvg(arguments.to.clone()));
        }
    };
    let (mut lineup, place) = match load_argument(&arguments.file)? {
        Loaded::Frameset(frameset) => match &arguments.frame {
            None => (Lineup::from(*frameset), FrameIndex::default()),
            Some(_) => return Err(PatternError::NotALineup(arguments.file.clone())),
        },
        Loaded::Lineup(lineup) => {
            let place = wanted(&lineup, arguments).map_err(of_file)?;
            (*lineup, place)
        }
    };
    choose(&mut lineup, place, arguments).map_err(of_file)?;
    // Only the frame asked for is computed.
    let entry = lineup.frames.swap_remove(place.0);
    lineup.frames = vec![entry];
    let findings = Findings::of(&lineup);
    let frame = findings.frames.first().ok_or_else(|| of_file(ChoiceError::Empty))?;
    let day = arguments.date.or_else(today);
    let units = lineup.settings.units;
    let scenes = pattern_scenes(frame, units, paper, day).map_err(|why| {
        let why = no_pattern_text(units, &why);
        of_file(ChoiceError::NoPattern { name: frame.name.clone(), size: frame.size_label().to_owned(), why })
    })?;
    let bytes =
        publish::pattern_file(&scenes, is_pdf, day).map_err(|why| PatternError::NotMade { to: arguments.to.clone(), why })?;
    Ok(output::write(&arguments.to, &bytes, arguments.replace, out, is_terminal)?)
}

/// Place of the frame asked for in a line-up.
fn wanted(lineup: &Lineup, arguments: &PatternArguments) -> Result<FrameIndex, ChoiceError> {
    let Some(reference) = lineup.reference_index() else { return Err(ChoiceError::Empty) };
    let Some(asked) = &arguments.frame else { return Ok(reference) };
    let found = FrameIndex::all(lineup.frames.len()).find(|i| letter(*i).eq_ignore_ascii_case(asked));
    found.ok_or_else(|| {
        let letters: Vec<String> = FrameIndex::all(lineup.frames.len()).map(letter).collect();
        ChoiceError::NoFrame { asked: asked.clone(), letters }
    })
}

/// Puts what was asked for into the line-up.
fn choose(lineup: &mut Lineup, place: FrameIndex, arguments: &PatternArguments) -> Result<(), ChoiceError> {
    if let (Some(label), Some(entry)) = (&arguments.size, place.of_mut(&mut lineup.frames)) {
        if entry.frameset.size_index(label).is_none() {
            let labels = entry.frameset.sizes.iter().map(|s| s.label.clone()).collect();
            return Err(ChoiceError::NoSize { asked: label.clone(), name: entry.frameset.name(), labels });
        }
        entry.size.clone_from(label);
    }
    let bag = &mut lineup.settings.bags.bag;
    let values = [
        (arguments.clearance, &mut bag.gap_to_tubes_mm),
        (arguments.corners, &mut bag.corner_radius_mm),
        (arguments.seam, &mut bag.seam_allowance_mm),
        (arguments.width_top, &mut bag.gusset_top_mm),
        (arguments.width_bottom, &mut bag.gusset_bottom_mm),
    ];
    for (asked, value) in values {
        if let Some(asked) = asked {
            *value = asked;
        }
    }
    if arguments.full {
        bag.part = BagPart::Full;
    } else if let Some(above_bb_mm) = arguments.above {
        bag.part = BagPart::Above(Cut::Level { above_bb_mm });
    } else if let Some(below_mm) = arguments.below_top_tube {
        bag.part = BagPart::Above(Cut::AlongTopTube { below_mm });
    }
    Ok(())
}
