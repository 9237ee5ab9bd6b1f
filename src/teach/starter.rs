//! A garment to start from.

/// The first garment, with comments that teach the file.
const GARMENT: &str = include_str!("../../templates/new/garment.yaml");

/// A garment folder to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Starter {
    /// The title made from the folder's name.
    pub title: String,
    /// The files: name and text.
    pub files: Vec<(&'static str, String)>,
}

/// The first garment of a folder, which builds as it stands. `folder` is the path as the maker typed it.
#[must_use]
pub fn starter(folder: &str) -> Starter {
    let name = folder.trim_end_matches(['/', '\\']);
    let name = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let title = title(name);
    let quoted = format!("\"{}\"", title.replace('\\', "\\\\").replace('"', "\\\""));
    let shown = folder.replace(['\n', '\r'], " ");
    let text = GARMENT.replace("{{title}}", &quoted).replace("{{folder}}", &shown);
    let mut schema = serde_json::to_string_pretty(&super::editor_schema()).unwrap_or_default();
    schema.push('\n');
    Starter { title, files: vec![("garment.yaml", text), (super::SCHEMA_FILE, schema)] }
}

/// `millers-apron` is `Millers apron`.
fn title(name: &str) -> String {
    let words: String =
        name.chars().filter(|c| !c.is_control()).map(|c| if matches!(c, '-' | '_') { ' ' } else { c }).collect();
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut letters = words.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => "My garment".to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::starter;

    #[test]
    fn the_title_comes_from_the_folder() {
        assert_eq!(starter("patterns/millers-apron/").title, "Millers apron");
        assert_eq!(starter("..").title, "..");
        assert_eq!(starter("-").title, "My garment");
    }

    #[test]
    fn odd_names_stay_inside_their_quotes() {
        let text = &starter("a\"b: #c").files[0].1;
        assert!(text.contains(r#"title: "A\"b: #c""#), "{text}");
    }
}
