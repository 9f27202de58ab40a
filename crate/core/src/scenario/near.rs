//! Finds the name that was probably meant.

/// The known name nearest to `name`, if it is near enough to be a slip of the keyboard: at most a
/// third of its letters differ. Of equally near ones the first.
pub(crate) fn nearest<'a>(name: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let name: Vec<char> = name.chars().take(80).flat_map(char::to_lowercase).collect();
    known
        .into_iter()
        .map(|k| (distance(&name, k), k))
        .filter(|(far, k)| *far * 3 <= k.chars().count().max(3))
        .min_by_key(|(far, _)| *far)
        .map(|(_, k)| k)
}

/// How many letters must be put in, taken out, changed or swapped with the next.
fn distance(from: &[char], to: &str) -> usize {
    // Rows of the table of prefixes: of `to` without its last letter, and without its last two.
    let mut row: Vec<usize> = (0..=from.len()).collect();
    let mut before: Vec<usize> = Vec::new();
    let mut last = None;
    for (n, t) in to.chars().flat_map(char::to_lowercase).enumerate() {
        let mut left = n + 1;
        let mut next = vec![left];
        for (i, (f, pair)) in from.iter().zip(row.windows(2)).enumerate() {
            let [diagonal, above] = pair else { continue };
            left = (diagonal + usize::from(*f != t)).min(above + 1).min(left + 1);
            let swapped = i > 0 && Some(*f) == last && from[i - 1] == t;
            if let Some(whole) = before.get(i.wrapping_sub(1)).filter(|_| swapped) {
                left = left.min(whole + 1);
            }
            next.push(left);
        }
        before = std::mem::replace(&mut row, next);
        last = Some(t);
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_found_and_a_stranger_is_not() {
        let known = ["toe_height", "toe_recess", "top_gap", "glue"];
        assert_eq!(nearest("toe_hieght", known), Some("toe_height"));
        assert_eq!(nearest("TopGap", known), Some("top_gap"));
        assert_eq!(nearest("colour", known), None);
        assert_eq!(nearest("cuont", ["fronts", "count"]), Some("count"));
        assert_eq!(nearest("", known), None);
    }

    #[test]
    fn distance_counts_edits() {
        let d = |a: &str, b: &str| distance(&a.chars().collect::<Vec<_>>(), b);
        assert_eq!(d("kitten", "sitting"), 3);
        assert_eq!(d("", "abc"), 3);
        assert_eq!(d("abc", ""), 3);
        assert_eq!(d("same", "same"), 0);
        // Swapped with the next, also at the ends.
        assert_eq!([d("cuont", "count"), d("ocunt", "count"), d("coutn", "count")], [1; 3]);
        assert_eq!(d("abcd", "badc"), 2);
    }
}
