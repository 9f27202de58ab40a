//! Names in the page's head all scripts that its first step needs. Without that a browser learns of each only
//! from the one that imports it, hop by hop.

use std::collections::BTreeSet;
use std::path::Path;

use crate::{Failure, files};

/// Where the imports begin: the page's own script, the stage that shows steps, the picture's bindings. The
/// catalogue of words is fetched by its language, which is not known here.
const FIRST: [&str; 3] = ["app.js", "pkg/jointwise_picture.js", "stages/bench.js"];

/// Where they are named in the page.
const BEFORE: &str = "    <script type=\"module\"";

/// Writes the names into the page of a built site.
pub fn write(site: &Path) -> Result<(), Failure> {
    let page = site.join("index.html");
    let text = files::read_text(&page)?;
    let (head, rest) = text
        .split_once(BEFORE)
        .ok_or_else(|| format!("{}: no script to put the others before", page.display()))?;
    let links: String = imported(site)?
        .iter()
        .map(|name| format!("    <link rel=\"modulepreload\" href=\"./{name}\">\n"))
        .collect();
    files::write(&page, &format!("{head}{links}{BEFORE}{rest}"))
}

/// Every script that those of the first step import, with themselves.
fn imported(site: &Path) -> Result<BTreeSet<String>, Failure> {
    let mut found = BTreeSet::new();
    let mut left: Vec<String> = FIRST.map(str::to_owned).into();
    while let Some(name) = left.pop() {
        if found.contains(&name) {
            continue;
        }
        let text = files::read_text(&site.join(&name))?;
        let folder = name.rsplit_once('/').map_or("", |(folder, _)| folder);
        left.extend(text.lines().filter_map(address).map(|to| joined(folder, to)));
        found.insert(name);
    }
    Ok(found)
}

/// What a line imports from the site.
fn address(line: &str) -> Option<&str> {
    let imports = line.starts_with("import ") || line.starts_with("} from ");
    let exports = line.starts_with("export ") && line.contains(" from \"");
    let (_, after) = line.split_once('"').filter(|_| imports || exports)?;
    let (address, _) = after.split_once('"')?;
    address.starts_with('.').then_some(address)
}

/// An address from a folder, from the site's root.
fn joined(folder: &str, address: &str) -> String {
    let mut way: Vec<&str> = folder.split('/').filter(|step| !step.is_empty()).collect();
    for step in address.split('/') {
        match step {
            "." => {}
            ".." => {
                way.pop();
            }
            step => way.push(step),
        }
    }
    way.join("/")
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    #[test]
    fn every_script_that_an_import_leads_to_is_named_once_before_the_first() {
        let site = std::env::temp_dir().join(format!("xtask-preload-{}", std::process::id()));
        for folder in ["pkg", "stages"] {
            fs::create_dir_all(site.join(folder)).unwrap();
        }
        let page = "<head>\n    <script type=\"module\" src=\"./app.js\"></script>\n</head>\n";
        for (name, text) in [
            ("index.html", page),
            ("app.js", "import { a } from \"./a.js\";\n// import { no } from \"./no.js\";\n"),
            (
                "a.js",
                "import {\n  b,\n} from \"./b.js\";\nconst x = await import(\"./later.js\");\n",
            ),
            ("b.js", "export { a } from \"./a.js\";\nexport const from = \"./no.js\";\n"),
            ("stages/bench.js", "import { b } from \"../b.js\";\n"),
            ("pkg/jointwise_picture.js", ""),
        ] {
            fs::write(site.join(name), text).unwrap();
        }
        write(&site).unwrap();
        let links = ["a.js", "app.js", "b.js", "pkg/jointwise_picture.js", "stages/bench.js"]
            .map(|name| format!("    <link rel=\"modulepreload\" href=\"./{name}\">\n"));
        let written = fs::read_to_string(site.join("index.html")).unwrap();
        assert_eq!(
            written,
            page.replacen("    <script", &format!("{}    <script", links.concat()), 1)
        );
        fs::remove_dir_all(&site).unwrap();
    }
}
