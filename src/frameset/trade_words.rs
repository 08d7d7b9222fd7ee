//! Words of standards in German, French, Spanish, Italian and Dutch, brought to the trade's English words, which are what
//! standards are read in: by the import of a page, and wherever a published text is understood.

use std::sync::LazyLock;

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
    ("bis zu", "up to"),
    ("bis", "up to"),
    ("jusqu'à", "up to"),
    ("jusqu’à", "up to"),
    ("hasta", "up to"),
    ("fino a", "up to"),
    ("tot", "up to"),
    ("höchstens", "at most"),
    ("maximal", "at most"),
    ("maximaal", "at most"),
    ("máximo", "at most"),
    ("massimo", "at most"),
    ("pro gabelbein", "per leg"),
    ("je gabelbein", "per leg"),
    ("pro seite", "per leg"),
    ("je seite", "per leg"),
    ("par fourreau", "per leg"),
    ("par côté", "per leg"),
    ("por lado", "per leg"),
    ("per lato", "per leg"),
    ("per stelo", "per leg"),
    ("per kant", "per leg"),
    ("per zijde", "per leg"),
    ("per poot", "per leg"),
    ("flaschenhalter", "bottle cages"),
    ("porte-bidons", "bottle cages"),
    ("porte-bidon", "bottle cages"),
    ("portabidones", "bottle cages"),
    ("portaborracce", "bottle cages"),
    ("bidonhouders", "bottle cages"),
    ("paare", "pairs"),
    ("paar", "pairs"),
    ("paires", "pairs"),
    ("pares", "pairs"),
    ("coppie", "pairs"),
    ("paren", "pairs"),
    ("ohne", "without"),
    ("sans", "without"),
    ("senza", "without"),
    ("zonder", "without"),
    ("mit", "with"),
    ("avec", "with"),
    ("con", "with"),
    ("met", "with"),
    ("anlötsockel", "braze-on"),
    ("anlöt", "braze-on"),
    ("à braser", "braze-on"),
    ("para soldar", "braze-on"),
    ("a saldare", "braze-on"),
    ("opsoldeer", "braze-on"),
    ("direktmontage", "direct mount"),
    ("montage direct", "direct mount"),
    ("montaje directo", "direct mount"),
    ("attacco diretto", "direct mount"),
    ("directe montage", "direct mount"),
    ("zug von oben", "top pull"),
    ("zug von unten", "bottom pull"),
    ("tirage par le haut", "top pull"),
    ("tirage haut", "top pull"),
    ("tirage par le bas", "bottom pull"),
    ("tirage bas", "bottom pull"),
    ("tiro superior", "top pull"),
    ("tiro inferior", "bottom pull"),
    ("tiro dall'alto", "top pull"),
    ("tiro dal basso", "bottom pull"),
    ("trek van boven", "top pull"),
    ("trek van onder", "bottom pull"),
    ("1-fach", "1x"),
    ("einfach", "1x"),
    ("2-fach", "2x"),
    ("zweifach", "2x"),
    ("3-fach", "3x"),
    ("dreifach", "3x"),
    ("monoplateau", "1x"),
    ("mono-plateau", "1x"),
    ("double plateau", "2x"),
    ("triple plateau", "3x"),
    ("monoplato", "1x"),
    ("doble plato", "2x"),
    ("triple plato", "3x"),
    ("monocorona", "1x"),
    ("doppia corona", "2x"),
    ("tripla corona", "3x"),
    ("enkel blad", "1x"),
    ("dubbel blad", "2x"),
    ("nur", "only"),
    ("uniquement", "only"),
    ("seulement", "only"),
    ("solamente", "only"),
    ("sólo", "only"),
    ("solo", "only"),
    ("alleen", "only"),
    ("kettenlinie", "chainline"),
    ("ligne de chaîne", "chainline"),
    ("línea de cadena", "chainline"),
    ("linea catena", "chainline"),
    ("kettinglijn", "chainline"),
    ("waagerecht", "horizontal"),
    ("horizontale", "horizontal"),
    ("horizontales", "horizontal"),
    ("orizzontali", "horizontal"),
    ("horizontaal", "horizontal"),
    ("senkrecht", "vertical"),
    ("exzenter", "eccentric"),
    ("exzentrisch", "eccentric"),
    ("excentrique", "eccentric"),
    ("excéntrico", "eccentric"),
    ("eccentrico", "eccentric"),
    ("excentrisch", "eccentric"),
    ("deslizantes", "sliding"),
    ("scorrevoli", "sliding"),
    ("verschuifbaar", "sliding"),
    ("riemen", "belt"),
    ("courroie", "belt"),
    ("correa", "belt"),
    ("cinghia", "belt"),
    ("riem", "belt"),
    ("nabenschaltung", "gear hub"),
    ("getriebenabe", "gear hub"),
    ("moyeu à vitesses", "gear hub"),
    ("buje de cambios", "gear hub"),
    ("cambio nel mozzo", "gear hub"),
    ("naafversnelling", "gear hub"),
    ("felgenbremse", "rim brake"),
    ("frein sur jante", "rim brake"),
    ("freno de llanta", "rim brake"),
    ("freno a pattino", "rim brake"),
    ("velgrem", "rim brake"),
    ("englisch", "english"),
    ("anglais", "english"),
    ("inglés", "english"),
    ("inglese", "english"),
    ("engels", "english"),
    ("italienisch", "italian"),
    ("italien", "italian"),
    ("italiano", "italian"),
    ("italiaans", "italian"),
    ("conisch", "tapered"),
    ("recht", "straight"),
    ("dritto", "straight"),
];

/// The text in the trade's English words, and whether that changed it.
pub(crate) fn in_english(text: &str) -> (String, bool) {
    // Nearly all texts hold none of the words; whole line-ups are read at every edit.
    let lower = text.to_lowercase();
    if !tokens(&lower).any(|token| LONGEST_TOKENS.binary_search(&token).is_ok()) {
        return (text.to_owned(), false);
    }
    let mut out = text.to_owned();
    for (word, english) in WORDS {
        out = replaced(&out, word, english);
    }
    let changed = out != text;
    (out, changed)
}

/// The longest run of letters of each word, in alphabetical order: without it in a text the word is not there either.
static LONGEST_TOKENS: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
    let mut found: Vec<&str> = WORDS.iter().filter_map(|(word, _)| tokens(word).max_by_key(|t| t.len())).collect();
    found.sort_unstable();
    found.dedup();
    found
});

fn tokens(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphabetic()).filter(|token| !token.is_empty())
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
        assert_eq!(in_english("max. 180, bis zu 50-622 mit Schutzblech").0, "max. 180, up to 50-622 with mudguards");
        assert_eq!(in_english("nur 1-fach, Kettenlinie 52").0, "only 1x, chainline 52");
        for (word, english) in WORDS {
            assert_eq!(in_english(word).0, *english, "{word} by itself");
        }
        assert_eq!(in_english("internal Hinterntest"), ("internal Hinterntest".to_owned(), false));
    }
}
