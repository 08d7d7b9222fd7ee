//! Sizes named and put in order: smallest first, whatever order the table has.

use super::question::{Question, Subject};
use super::reading::{Answers, Reading, size_reading};
use super::size_label::{Rank, rank};
use super::skeleton::Skeleton;
use crate::frameset::Figure;

/// Names the sizes; asks where two have one label.
pub(super) fn name_sizes(bones: &Skeleton, answers: &Answers, reading: &mut Reading) {
    let count = bones.sizes.len();
    let mut unnamed = 0;
    for (place, size) in bones.sizes.iter().enumerate() {
        let given = answers.labels.get(&size.column).filter(|l| !l.is_empty());
        let label = match given {
            Some(label) => label.clone(),
            None if !size.label.is_empty() => size.label.clone(),
            None if count == 1 => {
                unnamed += 1;
                "one size".to_owned()
            }
            None => {
                unnamed += 1;
                (place + 1).to_string()
            }
        };
        reading.sizes.push(size_reading(size.column, label, answers));
    }
    if unnamed > 0 {
        reading.remarks.push(match count {
            1 => "The table has no size name. The size is called “one size”.".to_owned(),
            _ => format!("{unnamed} of {count} sizes have no label. They are numbered."),
        });
    }
    tell_apart(bones, answers, reading);
}

/// Sizes of one label: told apart by another row that differs between them, else asked about.
fn tell_apart(bones: &Skeleton, answers: &Answers, reading: &mut Reading) {
    let labels: Vec<String> = reading.sizes.iter().map(|s| s.label.clone()).collect();
    let mut seen: Vec<&String> = Vec::new();
    for label in &labels {
        if seen.contains(&label) {
            continue;
        }
        seen.push(label);
        let places: Vec<usize> = (0..labels.len()).filter(|i| labels.get(*i) == Some(label)).collect();
        let standing = places.iter().filter(|p| reading.sizes.get(**p).is_some_and(|s| !s.left_out)).count();
        if standing < 2 {
            continue;
        }
        if let Some(row) = bones
            .rows
            .iter()
            .find(|r| r.found.as_ref().is_none_or(|f| f.meaning == super::names::Meaning::Wheel) && differ(&r.cells, &places))
        {
            for place in &places {
                if let (Some(size), Some(cell)) = (reading.sizes.get_mut(*place), row.cells.get(*place)) {
                    size.label = format!("{} {cell}", size.label);
                }
            }
            reading.remarks.push(format!("Several sizes have the name {label}. “{}” distinguishes them.", row.label));
            continue;
        }
        let subject = Subject::SameSize(label.clone());
        let answer = answers.chosen.get(&subject).copied();
        let mut choices = vec!["keep all, numbered".to_owned()];
        choices.extend((1..=places.len()).map(|n| format!("keep only number {n}")));
        match answer {
            Some(0) => {
                for (n, place) in places.iter().enumerate().skip(1) {
                    if let Some(size) = reading.sizes.get_mut(*place) {
                        size.label = format!("{label} ({})", n + 1);
                    }
                }
            }
            Some(kept) => {
                for (n, place) in places.iter().enumerate() {
                    if let Some(size) = reading.sizes.get_mut(*place) {
                        size.left_out |= n + 1 != kept;
                    }
                }
            }
            None => {}
        }
        reading.questions.push(Question {
            subject,
            sentence: format!("{} sizes have the name {label}. Which should be kept?", places.len()),
            choices,
            proposal: None,
            answer,
        });
    }
}

fn differ(cells: &[String], places: &[usize]) -> bool {
    let mut texts: Vec<&String> = places.iter().filter_map(|p| cells.get(*p)).filter(|t| !t.is_empty()).collect();
    texts.sort_unstable();
    texts.dedup();
    texts.len() == places.len()
}

/// Sorts sizes, and the cells of every row with them: by letters or numbers where all labels are of one kind, else by
/// the first figure that all sizes print and that grows with the frame.
pub(super) fn put_in_order(reading: &mut Reading) {
    let keys = label_keys(reading).or_else(|| figure_keys(reading));
    let Some(keys) = keys else { return };
    let mut order: Vec<usize> = (0..reading.sizes.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (keys.get(*a).copied().unwrap_or(0.0), keys.get(*b).copied().unwrap_or(0.0));
        a.total_cmp(&b)
    });
    if order.iter().enumerate().all(|(i, o)| i == *o) {
        return;
    }
    reading.sizes = order.iter().filter_map(|i| reading.sizes.get(*i).cloned()).collect();
    for row in &mut reading.rows {
        row.cells = order.iter().filter_map(|i| row.cells.get(*i).cloned()).collect();
    }
    reading.remarks.push("Sizes are sorted, smallest first.".to_owned());
}

fn label_keys(reading: &Reading) -> Option<Vec<f64>> {
    let ranks: Vec<Rank> = reading.sizes.iter().map(|s| rank(&s.label)).collect::<Option<_>>()?;
    let letters: Option<Vec<f64>> = ranks.iter().map(|r| if let Rank::Letters(x) = r { Some(*x) } else { None }).collect();
    letters.or_else(|| ranks.iter().map(|r| if let Rank::Number(x) = r { Some(*x) } else { None }).collect())
}

fn figure_keys(reading: &Reading) -> Option<Vec<f64>> {
    let grows = [Figure::Stack, Figure::EffectiveTopTube, Figure::SeatTube, Figure::Wheelbase, Figure::Reach, Figure::HeadTube];
    grows.iter().find_map(|figure| {
        let row = reading.rows.iter().find(|r| r.figure.is_some_and(|(f, _)| f == *figure))?;
        row.cells.iter().map(|c| c.value).collect()
    })
}
