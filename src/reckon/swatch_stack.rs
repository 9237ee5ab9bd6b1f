//! Stackings of layers in words: `wool folded + lining`.

use super::given::InputFault;

/// How many thicknesses of each layer lie in the pleat.
pub(super) type Stack = Vec<(String, f64)>;

/// Reads a stacking: layers joined by `+`, each a name with `folded` (two thicknesses), `flat` (one, also
/// where nothing is said), `out` (none) or a number behind it.
///
/// # Errors
/// Where a layer has no name, stands twice, or there is none.
pub(super) fn read(input: &str, text: &str) -> Result<Stack, InputFault> {
    let mut stack: Stack = Vec::new();
    for part in text.split('+') {
        let words: Vec<&str> = part.split_whitespace().collect();
        let (name, times) = match words.split_last() {
            Some((&"folded", rest)) => (rest.join(" "), 2.0),
            Some((&"flat", rest)) => (rest.join(" "), 1.0),
            Some((&"out", rest)) => (rest.join(" "), 0.0),
            Some((last, rest)) => match last.parse::<u16>() {
                Ok(number) if !rest.is_empty() => (rest.join(" "), f64::from(number)),
                _ => (words.join(" "), 1.0),
            },
            None => (String::new(), 1.0),
        };
        let name = name.to_lowercase();
        if name.is_empty() {
            return Err(InputFault::new(input, format!("`{}` has a layer without a name", text.trim()))
                .help("write the layers as `wool folded + lining`"));
        }
        if stack.iter().any(|(other, _)| *other == name) {
            return Err(InputFault::new(input, format!("`{name}` stands twice in `{}`", text.trim()))
                .help("say it once, with `folded` or a number of thicknesses"));
        }
        if times > 20.0 {
            return Err(InputFault::new(input, format!("`{name}` is more than twenty thick")));
        }
        stack.push((name, times));
    }
    if stack.iter().all(|(_, times)| *times == 0.0) {
        return Err(InputFault::new(input, format!("`{}` has no layer in it", text.trim())));
    }
    Ok(stack)
}

/// The thicknesses of a stacking over a list of layers.
pub(super) fn thicknesses(stack: &Stack, layers: &[String]) -> Vec<f64> {
    layers.iter().map(|layer| stack.iter().find(|(name, _)| name == layer).map_or(0.0, |(_, times)| *times)).collect()
}

#[cfg(test)]
mod tests {
    use super::{read, thicknesses};

    #[test]
    fn as_a_maker_writes_it() {
        let stack = read("x", "Wool folded + cotton lining + felt 3 + net out").unwrap();
        let layers: Vec<String> = ["felt", "wool", "net", "cotton lining", "silk"].map(String::from).to_vec();
        assert_eq!(thicknesses(&stack, &layers), [3.0, 2.0, 0.0, 1.0, 0.0]);
    }

    #[test]
    fn without_sense() {
        for text in ["", "wool +", "folded", "wool + wool flat", "wool out", "wool 400"] {
            assert!(read("x", text).is_err(), "{text}");
        }
    }
}
