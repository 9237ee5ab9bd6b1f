//! Rows of numbers, one cell a size.

use crate::set::view::{Cell, StripRow};
use crate::units::{Printed, Systems};

/// A row from printed numbers, one a size. The unit stands at the head of the row where all cells share it.
#[must_use]
pub(super) fn row(label: impl Into<String>, printed: &[Printed], systems: Systems) -> StripRow {
    let two = printed.iter().any(Printed::has_two);
    let (first, second): (Vec<&str>, Vec<&str>) = match systems {
        Systems::ImperialFirst => (imperial(printed), metric(printed)),
        Systems::MetricFirst => (metric(printed), imperial(printed)),
        Systems::ImperialOnly => (imperial(printed), Vec::new()),
        Systems::MetricOnly => (metric(printed), Vec::new()),
    };
    let (unit_first, first) = common_unit(&first);
    let (unit_second, second) = if two { common_unit(&second) } else { (String::new(), Vec::new()) };
    let cells = first
        .into_iter()
        .enumerate()
        .map(|(index, first)| Cell::new(first, second.get(index).cloned().unwrap_or_default()))
        .collect();
    StripRow { mark: None, label: label.into(), unit_first, unit_second, cells }
}

/// A row of words or counts, the same in both systems.
#[must_use]
pub(super) fn plain_row(label: impl Into<String>, cells: Vec<String>) -> StripRow {
    StripRow {
        mark: None,
        label: label.into(),
        unit_first: String::new(),
        unit_second: String::new(),
        cells: cells.into_iter().map(|text| Cell::new(text, "")).collect(),
    }
}

fn imperial(printed: &[Printed]) -> Vec<&str> {
    printed.iter().map(|one| one.imperial.as_str()).collect()
}

fn metric(printed: &[Printed]) -> Vec<&str> {
    printed.iter().map(|one| one.metric.as_str()).collect()
}

/// Takes the unit off the cells where they all have the same one.
fn common_unit(cells: &[&str]) -> (String, Vec<String>) {
    let split: Vec<Option<(&str, &str)>> = cells.iter().map(|cell| cell.rsplit_once('\u{a0}')).collect();
    let unit = split.first().copied().flatten().map(|(_, unit)| unit).unwrap_or_default();
    if !unit.is_empty() && split.iter().all(|pair| pair.is_some_and(|(_, other)| other == unit)) {
        let numbers = split.iter().flatten().map(|(number, _)| (*number).to_string()).collect();
        return (unit.to_string(), numbers);
    }
    (String::new(), cells.iter().map(ToString::to_string).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Length, Show, print};

    #[test]
    fn the_unit_moves_to_the_head() {
        let printed: Vec<Printed> =
            [24.0, 25.5].iter().map(|inch| print(Length::inches(*inch).into(), Show::LENGTH)).collect();
        let found = row("waist", &printed, Systems::ImperialFirst);
        assert_eq!((found.unit_first.as_str(), found.unit_second.as_str()), ("in", "cm"));
        assert_eq!(found.cells[1], Cell::new("25½", "64.8"));
    }
}
