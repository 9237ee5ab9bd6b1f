//! Laying the texts of all sizes over each other.

use super::block::{Block, Cell, Run, StripRow};
use super::markup::{RawBlock, RawRun, Shape};
use super::number::Number;
use super::render::{OneSize, Setting};
use super::sizes::{join, size_words};
use super::typography::{self, Sign};
use crate::units::{Printed, Systems};

/// How many different values may stand in a sentence.
const MOST_VALUES: usize = 3;
/// In how many places of one line values may stand with their sizes before they all go into the strip.
const MOST_PLACES: usize = 2;

/// A block and the sizes that have it, each with the values of its own.
struct Row<'a> {
    block: Vec<(usize, &'a RawBlock)>,
}

impl Row<'_> {
    fn sizes(&self) -> Vec<usize> {
        self.block.iter().map(|(size, _)| *size).collect()
    }

    fn holds(&self, block: &RawBlock) -> bool {
        self.block.first().is_some_and(|(_, first)| first.same_wording(block))
    }
}

/// One text from the texts of all sizes.
pub(super) fn merge(sizes: &[OneSize], setting: &Setting<'_>) -> Vec<Block> {
    let mut rows: Vec<Row<'_>> = Vec::new();
    for (index, size) in sizes.iter().enumerate() {
        rows = lay_over(rows, index, &size.blocks);
    }
    let mut merger = Merger { sizes, setting, marks: Vec::new() };
    let mut blocks = Vec::new();
    let mut rest = rows.as_slice();
    while let Some(first) = rest.first() {
        let of = first.sizes();
        let run = rest.iter().take_while(|row| row.sizes() == of).count();
        let (head, tail) = rest.split_at(run);
        let inner: Vec<Block> = head.iter().flat_map(|row| merger.block(row)).collect();
        if of.len() == sizes.len() {
            blocks.extend(inner);
        } else {
            let names = merger.names(&of);
            let words = size_words(&names, setting.table, setting.words, true);
            blocks.push(Block::Sizes { words, sizes: names.into_iter().map(String::from).collect(), blocks: inner });
        }
        rest = tail;
    }
    blocks
}

/// Lays the blocks of one more size over the rows so far: along the longest common run of blocks.
fn lay_over<'a>(rows: Vec<Row<'a>>, size: usize, blocks: &'a [RawBlock]) -> Vec<Row<'a>> {
    let width = blocks.len() + 1;
    // longest[i * width + j]: how many blocks rows[i..] and blocks[j..] have in common, in order.
    let mut longest = vec![0_usize; (rows.len() + 1) * width];
    let get = |table: &[usize], i: usize, j: usize| table.get(i * width + j).copied().unwrap_or(0);
    for (i, row) in rows.iter().enumerate().rev() {
        for (j, block) in blocks.iter().enumerate().rev() {
            let best = if row.holds(block) {
                get(&longest, i + 1, j + 1) + 1
            } else {
                get(&longest, i + 1, j).max(get(&longest, i, j + 1))
            };
            if let Some(cell) = longest.get_mut(i * width + j) {
                *cell = best;
            }
        }
    }
    let mut merged = Vec::with_capacity(rows.len());
    let mut j = 0;
    for (i, mut row) in rows.into_iter().enumerate() {
        // Blocks of this size alone that come before the next common one, once the row is that one.
        while let Some(block) = blocks.get(j) {
            if row.holds(block) {
                row.block.push((size, block));
                j += 1;
                break;
            }
            if get(&longest, i + 1, j) >= get(&longest, i, j + 1) {
                break;
            }
            merged.push(Row { block: vec![(size, block)] });
            j += 1;
        }
        merged.push(row);
    }
    merged.extend(blocks.iter().skip(j).map(|block| Row { block: vec![(size, block)] }));
    merged
}

/// A row of a strip that has been given a letter.
struct Mark {
    key: (String, String, Vec<usize>),
    letter: String,
}

struct Merger<'a> {
    sizes: &'a [OneSize],
    setting: &'a Setting<'a>,
    marks: Vec<Mark>,
}

/// One place in a block where a value stands, over the sizes that have the block.
struct Place<'a> {
    numbers: Vec<(usize, &'a Number)>,
    /// Whether it begins a sentence.
    first: bool,
    strong: bool,
    emph: bool,
}

impl<'a> Merger<'a> {
    fn names(&self, of: &[usize]) -> Vec<&'a str> {
        of.iter().filter_map(|&size| self.sizes.get(size)).map(|size| size.name.as_str()).collect()
    }

    fn block(&mut self, row: &Row<'_>) -> Vec<Block> {
        let Some((_, pattern)) = row.block.first() else { return Vec::new() };
        let places = self.places(row);
        let mut strip: Vec<StripRow> = Vec::new();
        let mut next = places.iter();
        let mut lines: Vec<Vec<Run>> = Vec::new();
        for line in &pattern.lines {
            let mut runs = Vec::new();
            let here = line.iter().filter(|run| matches!(run, RawRun::Slot { .. })).count();
            let inline =
                next.clone().take(here).filter(|place| (2..=MOST_VALUES).contains(&self.values(place).len())).count();
            for run in line {
                match run {
                    RawRun::Text { text, strong, emph } => {
                        runs.push(Run::Text { text: text.clone(), strong: *strong, emph: *emph });
                    }
                    RawRun::Ref { target, id, text } => {
                        runs.push(Run::Ref { target: *target, id: id.clone(), text: text.clone() });
                    }
                    RawRun::Slot { .. } => {
                        if let Some(place) = next.next() {
                            self.place(place, inline > MOST_PLACES, &mut runs, &mut strip);
                        }
                    }
                }
            }
            lines.push(joined(runs));
        }
        let mut blocks = vec![match pattern.shape {
            Shape::Paragraph => Block::Paragraph { runs: lines.into_iter().next().unwrap_or_default() },
            Shape::Note => Block::Note { runs: lines.into_iter().next().unwrap_or_default() },
            Shape::List { ordered } => Block::List { ordered, items: lines },
        }];
        if !strip.is_empty() {
            let sizes = self.names(&row.sizes()).into_iter().map(String::from).collect();
            blocks.push(Block::Strip { sizes, rows: strip });
        }
        blocks
    }

    /// The slots of a row's block in order, each with its numbers of all the row's sizes.
    fn places(&self, row: &Row<'_>) -> Vec<Place<'a>> {
        let mut places: Vec<Place<'a>> = Vec::new();
        for (nth, (size, block)) in row.block.iter().enumerate() {
            let slots = block.lines.iter().flatten().filter(|run| matches!(run, RawRun::Slot { .. }));
            for (index, slot) in slots.enumerate() {
                let RawRun::Slot { value, first, strong, emph, .. } = slot else { continue };
                let Some(number) = self.sizes.get(*size).and_then(|size| size.numbers.get(*value)) else { continue };
                if nth == 0 {
                    places.push(Place { numbers: Vec::new(), first: *first, strong: *strong, emph: *emph });
                }
                if let Some(place) = places.get_mut(index) {
                    place.numbers.push((*size, number));
                }
            }
        }
        places
    }

    /// The different values of a place as they would stand in the sentence, each with its sizes.
    fn values(&self, place: &Place<'_>) -> Vec<(String, bool, Vec<usize>)> {
        let mut values: Vec<(String, bool, Vec<usize>)> = Vec::new();
        for (size, number) in &place.numbers {
            let (text, two) = self.written(number, place.first);
            match values.iter_mut().find(|(known, ..)| *known == text) {
                Some((.., sizes)) => sizes.push(*size),
                None => values.push((text, two, vec![*size])),
            }
        }
        values
    }

    fn written(&self, number: &Number, first: bool) -> (String, bool) {
        if let Some(words) = number.in_words(self.setting.words) {
            return (if first { capital(words) } else { words.to_string() }, false);
        }
        // A number that has no print was refused when it was rendered.
        number
            .printed()
            .map_or((String::new(), false), |printed| (printed.typeset(self.setting.systems), printed.has_two()))
    }

    fn place(&mut self, place: &Place<'_>, crowded: bool, runs: &mut Vec<Run>, strip: &mut Vec<StripRow>) {
        let values = self.values(place);
        let value = |text: &str| Run::Value { text: text.to_string(), strong: place.strong, emph: place.emph };
        let plain = |text: &str| Run::Text { text: text.to_string(), strong: place.strong, emph: place.emph };
        match values.as_slice() {
            [] => {}
            [(text, ..)] => runs.push(value(text)),
            several if several.len() <= MOST_VALUES && !crowded => {
                let long = several.iter().any(|(_, two, _)| *two);
                let words = self.setting.words;
                let (pattern, or) =
                    if long { (&words.value_long, &words.or_long) } else { (&words.value_short, &words.or_short) };
                for (nth, (text, _, sizes)) in several.iter().enumerate() {
                    if nth > 0 {
                        runs.push(plain(if nth + 1 == several.len() { or } else { ", " }));
                    }
                    let sizes = size_words(&self.names(sizes), self.setting.table, words, false);
                    let (before, behind) = pattern.split_once("{value}").unwrap_or(("", " {sizes}"));
                    runs.push(plain(&before.replace("{sizes}", &sizes)));
                    runs.push(value(text));
                    runs.push(plain(&behind.replace("{sizes}", &sizes)));
                }
            }
            _ => {
                let letter = self.mark(place, strip);
                runs.push(Run::Mark { letter });
            }
        }
    }

    /// The letter of the strip row of a place; the row is made where the letter is first used.
    fn mark(&mut self, place: &Place<'_>, strip: &mut Vec<StripRow>) -> String {
        let sizes = place.numbers.iter().map(|(size, _)| *size).collect();
        let (written, label) = place
            .numbers
            .first()
            .map_or_else(Default::default, |(_, number)| (number.written(), number.shown.label.clone()));
        let key = (written, label.clone(), sizes);
        if let Some(mark) = self.marks.iter().find(|mark| mark.key == key) {
            return mark.letter.clone();
        }
        let letter = letter(self.marks.len());
        self.marks.push(Mark { key, letter: letter.clone() });
        let printed: Vec<Printed> = place.numbers.iter().filter_map(|(_, number)| number.printed().ok()).collect();
        let signs: Vec<Sign> = label.chars().map(Sign::Char).collect();
        let label = typography::set(&signs, self.setting.words).into_iter().flatten().collect();
        strip.push(row(letter.clone(), label, &printed, self.setting.systems));
        letter
    }
}

/// A row of a strip; the units stand at its head where all cells share them.
fn row(letter: String, label: String, printed: &[Printed], systems: Systems) -> StripRow {
    let two = printed.iter().any(Printed::has_two);
    let pair = |printed: &Printed| match systems {
        Systems::ImperialFirst => (printed.imperial.clone(), printed.metric.clone()),
        Systems::MetricFirst => (printed.metric.clone(), printed.imperial.clone()),
        Systems::ImperialOnly => (printed.imperial.clone(), String::new()),
        Systems::MetricOnly => (printed.metric.clone(), String::new()),
    };
    let mut cells: Vec<(String, String)> = printed.iter().map(pair).collect();
    if !two {
        cells.iter_mut().for_each(|(_, second)| second.clear());
        let cells = cells.into_iter().map(|(first, _)| Cell::new(first, "")).collect();
        return StripRow { mark: Some(letter), label, unit_first: String::new(), unit_second: String::new(), cells };
    }
    let unit_first = take_unit(&mut cells, |cell| &mut cell.0);
    let unit_second = take_unit(&mut cells, |cell| &mut cell.1);
    let cells = cells.into_iter().map(|(first, second)| Cell::new(first, second)).collect();
    StripRow { mark: Some(letter), label, unit_first, unit_second, cells }
}

/// Takes the unit off the cells, if they all have the same.
fn take_unit(cells: &mut [(String, String)], side: impl Fn(&mut (String, String)) -> &mut String) -> String {
    let unit_of = |text: &str| text.split_once('\u{a0}').map(|(_, unit)| unit.to_string());
    let Some(unit) = cells.first_mut().and_then(|cell| unit_of(side(cell))) else { return String::new() };
    if !cells.iter_mut().all(|cell| unit_of(side(cell)).as_ref() == Some(&unit)) {
        return String::new();
    }
    for cell in cells {
        let text = side(cell);
        if let Some((number, _)) = text.split_once('\u{a0}') {
            *text = number.to_string();
        }
    }
    unit
}

/// `A`, `B`, ... `Z`, `AA`, ...
fn letter(index: usize) -> String {
    let last = char::from(b'A' + u8::try_from(index % 26).unwrap_or(0));
    if index < 26 { last.to_string() } else { format!("{}{last}", letter(index / 26 - 1)) }
}

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// Texts of one kind beside each other become one.
fn joined(runs: Vec<Run>) -> Vec<Run> {
    let mut made: Vec<Run> = Vec::new();
    for run in runs {
        match (made.last_mut(), run) {
            (Some(Run::Text { text, strong, emph }), Run::Text { text: more, strong: s, emph: e })
                if (*strong, *emph) == (s, e) =>
            {
                text.push_str(&more);
            }
            (_, Run::Text { text, .. }) if text.is_empty() => {}
            (_, run) => made.push(run),
        }
    }
    made
}

/// The names of sizes in a list, for messages.
pub(super) fn listed(names: &[String]) -> String {
    join(&names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>(), ", ", " and ")
}

#[cfg(test)]
mod tests {
    use super::letter;

    #[test]
    fn letters_go_on_behind_z() {
        assert_eq!([0, 25, 26, 51, 52].map(letter), ["A", "Z", "AA", "AZ", "BA"]);
    }
}
