//! The list of scenario files that the page offers, with their titles.

/// One file of the list.
pub struct Listed {
    /// Its name in the folder.
    pub name: String,
    /// What it holds.
    pub text: String,
    /// Whether its plan lies beside it.
    pub planned: bool,
}

/// The list as JSON: `[{"file": "a.json", "title": "…", "planned": true}, …]`, in the order given.
/// A file without a title at its top level is listed by its name.
pub fn listing(files: &[Listed]) -> String {
    let rows: Vec<String> = files
        .iter()
        .map(|Listed { name, text, planned }| {
            let name = quoted(name);
            let title = title(text).unwrap_or(&name);
            let planned = if *planned { ", \"planned\": true" } else { "" };
            format!("  {{ \"file\": {name}, \"title\": {title}{planned} }}")
        })
        .collect();
    if rows.is_empty() { "[]\n".to_owned() } else { format!("[\n{}\n]\n", rows.join(",\n")) }
}

/// The string literal of the top-level member `title`, with its quotes and escapes as they stand.
/// One member is all the task needs to know, so it reads no more of JSON than strings and depth.
fn title(text: &str) -> Option<&str> {
    let bytes = text.as_bytes();
    let mut depth = 0_i32;
    let mut at = 0;
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'{' | b'[' => depth += 1,
            b'}' | b']' => depth -= 1,
            b'"' => {
                let end = string_end(bytes, at)?;
                let is_key = depth == 1 && text.get(at..end) == Some("\"title\"");
                at = end;
                if is_key {
                    let colon = skip_space(bytes, at);
                    if bytes.get(colon) == Some(&b':') {
                        let value = skip_space(bytes, colon + 1);
                        if bytes.get(value) != Some(&b'"') {
                            return None;
                        }
                        return text.get(value..string_end(bytes, value)?);
                    }
                }
                continue;
            }
            _ => {}
        }
        at += 1;
    }
    None
}

/// Just past the closing quote of the string that opens at `start`.
fn string_end(bytes: &[u8], start: usize) -> Option<usize> {
    let mut at = start + 1;
    loop {
        match bytes.get(at)? {
            b'"' => return Some(at + 1),
            b'\\' => at += 2,
            _ => at += 1,
        }
    }
}

fn skip_space(bytes: &[u8], start: usize) -> usize {
    start + bytes.iter().skip(start).take_while(|byte| byte.is_ascii_whitespace()).count()
}

fn quoted(text: &str) -> String {
    let mut out = String::from('"');
    for letter in text.chars() {
        match letter {
            '"' | '\\' => out.extend(['\\', letter]),
            letter if letter < ' ' => out.push_str(&format!("\\u{:04x}", u32::from(letter))),
            letter => out.push(letter),
        }
    }
    out.push('"');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_top_level_title_is_taken_as_it_stands() {
        let text =
            r#"{ "space": { "title": "no" }, "note": "title", "title" : "A \"b\" é", "x": 1 }"#;
        assert_eq!(title(text), Some(r#""A \"b\" é""#));
    }

    #[test]
    fn no_title_no_harm() {
        assert_eq!(title(r#"{ "space": { "title": "no" } }"#), None);
        assert_eq!(title(r#"{ "title": 3 }"#), None);
        assert_eq!(title(r#"{ "title": "cut o"#), None);
        assert_eq!(title(r#"{ "title"#), None);
        assert_eq!(title("[[[["), None);
    }

    #[test]
    fn a_file_without_title_is_listed_by_name() {
        let one = |name: &str, text: &str, planned| Listed {
            name: name.to_owned(),
            text: text.to_owned(),
            planned,
        };
        let files = [one("a.json", r#"{"title":"One"}"#, true), one("b\".json", "{}", false)];
        assert_eq!(
            listing(&files),
            "[\n  { \"file\": \"a.json\", \"title\": \"One\", \"planned\": true },\n  \
             { \"file\": \"b\\\".json\", \"title\": \"b\\\".json\" }\n]\n"
        );
        assert_eq!(listing(&[]), "[]\n");
    }
}
