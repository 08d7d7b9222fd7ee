//! Checks of names of figures in six languages.

use super::*;

fn figure(label: &str) -> Option<(Figure, f64)> {
    match find(label)? {
        Found { meaning: Meaning::Figures { choices, .. }, likeness, .. } => Some((*choices.first()?, likeness)),
        _ => None,
    }
}

#[test]
fn every_line_of_every_file_is_understood() {
    for (language, text) in FILES {
        for line in text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty()) {
            let (meaning, names) = line.split_once('=').unwrap_or_else(|| panic!("{language:?}: {line}"));
            assert!(meaning.trim() == "@Harmless" || parse_meaning(meaning).is_some(), "{language:?}: {meaning}");
            assert!(names.split(';').all(|n| !n.trim().is_empty()), "{language:?}: an empty name in {line}");
        }
    }
    for figure in Figure::printable().filter(|f| {
        !matches!(f, Figure::LowerHeadset | Figure::AxleToCrownAlongAxis | Figure::AxleToCrownDirect | Figure::SeatTubeSetback)
    }) {
        for (language, _) in FILES {
            let named = NAMES.all.iter().any(|n| {
                n.language == language
                    && matches!(&NAMES.meanings[n.meaning], Meaning::Figures { choices, .. } if choices.contains(&figure))
            });
            assert!(named, "{figure:?} has a name in {language:?}");
        }
    }
}

/// A table that Spandrel wrote comes back as the same figures.
#[test]
fn every_label_of_a_figure_names_it() {
    for of in Figure::printable() {
        // “Seat tube angle” can be another figure on a maker's page, which is asked.
        let is_named = find(of.label()).is_some_and(|f| {
            matches!(&f.meaning, Meaning::Figures { choices, .. } if choices.contains(&of)) && f.likeness >= SURE
        });
        assert!(is_named, "{}", of.label());
    }
}

#[test]
fn one_name_has_one_meaning() {
    let names = &*NAMES;
    for name in &names.all {
        let first = names.exact[&name.squeezed];
        assert_eq!(
            names.meanings[names.all[first].meaning], names.meanings[name.meaning],
            "`{}` ({:?}) and `{}` ({:?})",
            name.text, name.language, names.all[first].text, names.all[first].language
        );
    }
}

/// The reason for [`SURE`]: the greatest likeness between names of different meaning stays below it.
#[test]
fn names_of_different_meaning_are_less_alike_than_sure() {
    let names = &*NAMES;
    let mut worst = (0.0, "", "");
    let mut too_alike = Vec::new();
    for (i, a) in names.all.iter().enumerate() {
        for b in &names.all[..i] {
            if a.squeezed.chars().count() <= 4
                || b.squeezed.chars().count() <= 4
                || names.meanings[a.meaning] == names.meanings[b.meaning]
            {
                continue;
            }
            // Lengths that differ by more than the share left cannot be this alike.
            let (short, long) = (a.squeezed.len().min(b.squeezed.len()), a.squeezed.len().max(b.squeezed.len()));
            if (short as f64) < 0.8 * long as f64 {
                continue;
            }
            let likeness = strsim::normalized_damerau_levenshtein(&a.squeezed, &b.squeezed)
                .max(strsim::normalized_damerau_levenshtein(&a.sorted, &b.sorted));
            if likeness > worst.0 {
                worst = (likeness, a.text, b.text);
            }
            if likeness >= SURE {
                too_alike.push(format!("`{}` and `{}` are {likeness:.3} alike", a.text, b.text));
            }
        }
    }
    assert!(too_alike.is_empty(), "{}", too_alike.join("\n"));
    assert!(worst.0 > 0.8, "{worst:?}: if names are this unlike, SURE can be lower");
}

/// The quick look at letters alone leaves out no name that is as like as this: every name with letters changed, left out,
/// doubled and exchanged is found as it is by working out every distance.
#[test]
fn no_likeness_is_missed_by_counting_letters_first() {
    let names = &*NAMES;
    let slowly = |label: &str| -> Option<f64> {
        let (squeezed, sorted) = forms(&words(label));
        let all = names.all.iter().filter(|name| squeezed.chars().count().min(name.squeezed.chars().count()) > 4);
        let likeness = all.map(|name| {
            strsim::normalized_damerau_levenshtein(&squeezed, &name.squeezed)
                .max(strsim::normalized_damerau_levenshtein(&sorted, &name.sorted))
        });
        likeness.filter(|l| *l >= WORTH_ASKING).max_by(f64::total_cmp)
    };
    for (index, name) in names.all.iter().enumerate().filter(|(_, name)| (5..40).contains(&name.squeezed.len())).step_by(3) {
        let mut letters: Vec<char> = name.text.chars().collect();
        let at = index % (letters.len() - 1);
        match index % 4 {
            0 => letters.swap(at, at + 1),
            1 => drop(letters.remove(at)),
            2 => letters.insert(at, 'x'),
            _ => letters[at] = 'q',
        }
        let label: String = letters.into_iter().collect();
        // What holds a whole name and more is judged by its words.
        if let Some(found) = alike(&label).filter(|found| found.left_over.is_empty()) {
            assert_eq!(Some(found.likeness), slowly(&label), "{label}");
        } else {
            assert!(slowly(&label).is_none_or(|likeness| likeness <= 0.88), "{label}");
        }
    }
}

#[test]
fn labels_of_the_trade_are_known() {
    use Figure as F;
    for (label, expected) in [
        ("Stack", F::Stack),
        ("A. Stack", F::Stack),
        ("Reach (B)", F::Reach),
        ("Head Tube Angle", F::HeadAngle),
        ("HTA", F::HeadAngle),
        ("Head angle (HTA)", F::HeadAngle),
        ("Steuerrohrwinkel / Head tube angle", F::HeadAngle),
        ("Top Tube (effective)", F::EffectiveTopTube),
        ("Oberrohrlänge, horizontal", F::EffectiveTopTube),
        ("Ueberstandshoehe", F::Standover),
        ("Longueur du tube de direction", F::HeadTube),
        ("Vainas", F::Chainstay),
        ("Longitud de las vainas", F::Chainstay),
        ("Interasse", F::Wheelbase),
        ("Balhoofdbuislengte", F::HeadTube),
        ("Seat tube (c-t)", F::SeatTube),
        ("Fork A-C", F::AxleToCrown),
        ("Fork Length (A-C)", F::AxleToCrown),
        ("Fork Axle-Crown", F::AxleToCrown),
        ("Fork length, axle to crown", F::AxleToCrown),
        ("Gabellänge (A-C)", F::AxleToCrown),
        ("Seat Tube C-T", F::SeatTube),
        ("Seat Tube Length (C-T)", F::SeatTube),
        ("Sitzrohr (c-t)", F::SeatTube),
        ("Effective Top Tube (ETT)", F::EffectiveTopTube),
        ("Top Tube Length (Effective)", F::EffectiveTopTube),
        ("BB-Drop", F::BbDrop),
        ("Chain-stay length", F::Chainstay),
    ] {
        assert_eq!(figure(label), Some((expected, 1.0)), "{label}");
    }
}

#[test]
fn slips_are_sure_or_asked_and_strangers_are_neither() {
    let (f, likeness) = figure("Wheelbaze length").unwrap_or_else(|| panic!("asked"));
    assert_eq!(f, Figure::Wheelbase);
    assert!((WORTH_ASKING..1.0).contains(&likeness));
    let (f, likeness) = figure("Effektive top tube length").unwrap_or_else(|| panic!("sure"));
    assert_eq!(f, Figure::EffectiveTopTube);
    assert!(likeness >= SURE);
    let spaced = find("Reach (with 30 mm of spacers)").unwrap_or_else(|| panic!("asked"));
    assert!(spaced.likeness < SURE && spaced.left_over.contains("spacers"));
    for stranger in ["Bottle cage bosses", "Marrowby Drift", "XL", "Lorem ipsum dolor sit amet", ""] {
        assert!(figure(stranger).is_none(), "{stranger}");
    }
    for aside in ["Stem length", "Seat tube (c-c)", "Vorbaulänge", "Altura del ciclista"] {
        assert_eq!(find(aside).map(|f| f.meaning), Some(Meaning::Aside), "{aside}");
    }
}
