//! Words of standards in German, French, Spanish, Italian and Dutch, brought to the trade's English words, which are what
//! standards are read in.

/// Words and what they are in English, the longer before the shorter. Lower case.
const WORDS: &[(&str, &str)] = &[
    ("steckachsen", "through axle"),
    ("steckachse", "through axle"),
    ("axe traversant", "through axle"),
    ("eje pasante", "through axle"),
    ("perno passante", "through axle"),
    ("steekas", "through axle"),
    ("schnellspanner", "quick release"),
    ("serrage rapide", "quick release"),
    ("blocage rapide", "quick release"),
    ("attache rapide", "quick release"),
    ("cierre rápido", "quick release"),
    ("sgancio rapido", "quick release"),
    ("bloccaggio rapido", "quick release"),
    ("snelspanner", "quick release"),
    ("vollachse", "solid axle"),
    ("flatmount", "flat mount"),
    ("flat-mount", "flat mount"),
    ("postmount", "post mount"),
    ("post-mount", "post mount"),
    ("cantisockel", "cantilever bosses"),
    ("cantilever-sockel", "cantilever bosses"),
    ("innenverlegt", "inside"),
    ("innenliegend", "inside"),
    ("intern", "inside"),
    ("interne", "inside"),
    ("interno", "inside"),
    ("interna", "inside"),
    ("außenliegend", "outside"),
    ("externe", "outside"),
    ("externo", "outside"),
    ("esterno", "outside"),
    ("gepäckträger", "racks"),
    ("porte-bagages", "racks"),
    ("porte bagages", "racks"),
    ("portabultos", "racks"),
    ("portapacchi", "racks"),
    ("bagagedragers", "racks"),
    ("bagagedrager", "racks"),
    ("schutzbleche", "mudguards"),
    ("schutzblech", "mudguards"),
    ("garde-boue", "mudguards"),
    ("garde boue", "mudguards"),
    ("guardabarros", "mudguards"),
    ("parafanghi", "mudguards"),
    ("spatborden", "mudguards"),
    ("fenders", "mudguards"),
    ("fender", "mudguard"),
    ("unterrohr", "down tube"),
    ("sitzrohr", "seat tube"),
    ("oberrohr", "top tube"),
    ("tube diagonal", "down tube"),
    ("tube de selle", "seat tube"),
    ("tube horizontal", "top tube"),
    ("tubo diagonal", "down tube"),
    ("tubo de sillín", "seat tube"),
    ("tubo obliquo", "down tube"),
    ("piantone", "seat tube"),
    ("schuine buis", "down tube"),
    ("onderbuis", "down tube"),
    ("zitbuis", "seat tube"),
    ("hinten", "rear"),
    ("arrière", "rear"),
    ("trasero", "rear"),
    ("posteriore", "rear"),
    ("achter", "rear"),
    ("vorne", "front"),
    ("vorn", "front"),
    ("avant", "front"),
    ("delantero", "front"),
    ("anteriore", "front"),
    ("voor", "front"),
    ("oder", "or"),
    ("und", "and"),
    ("verschiebbar", "sliding"),
    ("coulissantes", "sliding"),
    ("vertikal", "vertical"),
    ("verticales", "vertical"),
    ("verticali", "vertical"),
    ("verticaal", "vertical"),
    ("schelle", "clamp"),
    ("collier", "clamp"),
    ("abrazadera", "clamp"),
    ("fascetta", "clamp"),
    ("keine", "none"),
    ("aucun", "none"),
    ("ninguno", "none"),
    ("nessuno", "none"),
    ("geen", "none"),
    ("konisch", "tapered"),
    ("conique", "tapered"),
    ("cónico", "tapered"),
    ("conico", "tapered"),
    ("gerade", "straight"),
];

/// The text in the trade's English words, and whether that changed it.
pub(super) fn in_english(text: &str) -> (String, bool) {
    let mut out = text.to_owned();
    for (word, english) in WORDS {
        out = replaced(&out, word, english);
    }
    let changed = out != text;
    (out, changed)
}

/// Every whole word `word`, in capitals or not, made `english`.
fn replaced(text: &str, word: &str, english: &str) -> String {
    let lower = text.to_lowercase();
    // A text whose lower case is longer or shorter keeps no places.
    if lower.len() != text.len() || !lower.contains(word) {
        return text.to_owned();
    }
    let mut out = String::with_capacity(text.len());
    let mut from = 0;
    while let Some(at) = lower.get(from..).and_then(|rest| rest.find(word)).map(|at| at + from) {
        let end = at + word.len();
        let before = lower.get(..at).and_then(|t| t.chars().next_back());
        let after = lower.get(end..).and_then(|t| t.chars().next());
        let is_whole = !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric);
        out.push_str(text.get(from..at).unwrap_or_default());
        out.push_str(if is_whole { english } else { text.get(at..end).unwrap_or_default() });
        from = end;
    }
    out.push_str(text.get(from..).unwrap_or_default());
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_words_become_english() {
        assert_eq!(in_english("12 x 142 mm Steckachse"), ("12 x 142 mm through axle".to_owned(), true));
        assert_eq!(in_english("Flatmount, 160 mm").0, "flat mount, 160 mm");
        assert_eq!(in_english("œillets porte-bagages, garde-boue avant").0, "œillets racks, mudguards front");
        assert_eq!(in_english("internal Hinterntest"), ("internal Hinterntest".to_owned(), false));
    }
}
