//! Files that no maker wrote: broken at random, they still give a fault with a place, or check clean.

use proptest::collection::vec;
use proptest::prelude::{Strategy, any, prop_oneof};
use proptest::test_runner::{Config, FileFailurePersistence};
use proptest::{prop_assert, proptest};

use super::apron::Apron;

/// One thing done to a text; the numbers choose the place.
#[derive(Debug, Clone)]
enum Harm {
    Delete(usize),
    Double(usize),
    Swap(usize, usize),
    Indent(usize),
    Insert(usize, &'static str),
    Cut(usize),
}

/// Signs that mean something to YAML, to formulas, to prose or to terminals, and what is not in any of them.
const ODD: [&str; 24] = [
    ":", "- ", "#", "\t", "\"", "'", "{", "}", "[", "]", "&a ", "*a", "!", "|", "{{", "}}", "{%", "**", "\u{feff}",
    "\u{202e}", "é", "🧵", "\r", "-1e308",
];

fn harm() -> impl Strategy<Value = Harm> {
    let at = || any::<proptest::sample::Index>().prop_map(|index| index.index(1_000_000));
    prop_oneof![
        at().prop_map(Harm::Delete),
        at().prop_map(Harm::Double),
        (at(), at()).prop_map(|(a, b)| Harm::Swap(a, b)),
        at().prop_map(Harm::Indent),
        (at(), proptest::sample::select(&ODD[..])).prop_map(|(at, odd)| Harm::Insert(at, odd)),
        at().prop_map(Harm::Cut),
    ]
}

fn done(text: &str, harm: &Harm) -> String {
    let mut lines: Vec<String> = text.split('\n').map(ToString::to_string).collect();
    let count = lines.len();
    match harm {
        Harm::Delete(at) => {
            lines.remove(at % count);
        }
        Harm::Double(at) => lines.insert(at % count, lines[at % count].clone()),
        Harm::Swap(a, b) => lines.swap(a % count, b % count),
        Harm::Indent(at) => lines[at % count].insert_str(0, "  "),
        Harm::Insert(at, odd) => {
            let mut chars: Vec<char> = text.chars().collect();
            let at = at % (chars.len() + 1);
            chars.splice(at..at, odd.chars());
            return chars.into_iter().collect();
        }
        Harm::Cut(at) => {
            let chars = text.chars().count();
            return text.chars().take(at % (chars + 1)).collect();
        }
    }
    lines.join("\n")
}

proptest! {
    #![proptest_config(Config {
        cases: 160,
        max_shrink_iters: 64,
        failure_persistence: Some(Box::new(FileFailurePersistence::Off)),
        ..Config::default()
    })]

    #[test]
    fn a_broken_file_is_a_fault_with_a_place_or_none(harms in vec(harm(), 1..4)) {
        let text = harms.iter().fold(Apron::new().text(), |text, harm| done(&text, harm));
        let found = Apron::of(text).check();
        found.assert_places();
        let stops = found.faults.iter().any(furbelow::fault::Fault::stops);
        prop_assert!(found.build.is_some() || stops, "neither a build nor a fault");
        prop_assert!(found.faults.len() < 200, "{} faults", found.faults.len());
        for seen in found.seen() {
            prop_assert!(seen.message.len() < 2000 && seen.help.len() < 4000, "{seen:?}");
        }
        let shown = found.shown();
        prop_assert!(shown.len() < 200_000, "{} bytes shown", shown.len());
    }

    /// Text that is no garment at all.
    #[test]
    fn any_text_at_all(text in "[ -~\n\t:{}\\[\\]#é🧵]{0,400}") {
        let found = Apron::of(text).check();
        found.assert_places();
        prop_assert!(!found.faults.is_empty());
    }
}
