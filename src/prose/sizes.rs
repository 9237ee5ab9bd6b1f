//! Sizes in words: `sizes 6, 8 and 12 to 18`.

use crate::words::ProseWords as Words;

/// The sizes in words, runs of three and more in the order of the size table drawn together. `first`
/// asks for the form at the beginning of a line.
#[must_use]
pub fn size_words(sizes: &[&str], table: &[String], words: &Words, first: bool) -> String {
    let mut at: Vec<usize> = sizes.iter().filter_map(|size| table.iter().position(|name| name == size)).collect();
    at.sort_unstable();
    at.dedup();
    let mut parts: Vec<String> = Vec::new();
    let mut rest = at.as_slice();
    while let Some(&from) = rest.first() {
        let run = rest.iter().enumerate().take_while(|&(step, &index)| index == from + step).count();
        let (head, tail) = rest.split_at(run);
        let name = |index: usize| table.get(index).cloned().unwrap_or_default();
        match head.last() {
            Some(&to) if run > 2 => parts.push(words.run.replace("{from}", &name(from)).replace("{to}", &name(to))),
            _ => parts.extend(head.iter().map(|&index| name(index))),
        }
        rest = tail;
    }
    let pattern = match (at.len() == 1, first) {
        (true, true) => &words.size_first,
        (true, false) => &words.size,
        (false, true) => &words.sizes_first,
        (false, false) => &words.sizes,
    };
    pattern.replace("{sizes}", &join(&parts, ", ", &words.and))
}

/// A list in words: `a, b and c`.
pub(super) fn join(parts: &[String], comma: &str, last: &str) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., end] => format!("{}{last}{end}", head.join(comma)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_in_the_order_of_the_table() {
        let table: Vec<String> = ["6", "8", "10", "12", "14", "16"].map(String::from).to_vec();
        let say = |sizes: &[&str]| size_words(sizes, &table, &Words::english(), false).replace('\u{a0}', " ");
        assert_eq!(say(&["6"]), "size 6");
        assert_eq!(say(&["8", "6"]), "sizes 6 and 8");
        assert_eq!(say(&["6", "8", "10"]), "sizes 6 to 10");
        assert_eq!(say(&["6", "10", "12", "14"]), "sizes 6 and 10 to 14");
        assert_eq!(say(&["6", "8", "12", "14", "16"]), "sizes 6, 8 and 12 to 16");
        assert_eq!(size_words(&["16"], &table, &Words::english(), true), "Size\u{a0}16");
    }
}
