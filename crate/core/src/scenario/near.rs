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

/// How many letters must be put in, taken out or changed.
fn distance(from: &[char], to: &str) -> usize {
    let mut row: Vec<usize> = (0..=from.len()).collect();
    for (n, t) in to.chars().flat_map(char::to_lowercase).enumerate() {
        let mut left = n + 1;
        let mut next = vec![left];
        for (f, pair) in from.iter().zip(row.windows(2)) {
            let [diagonal, above] = pair else { continue };
            left = (diagonal + usize::from(*f != t)).min(above + 1).min(left + 1);
            next.push(left);
        }
        row = next;
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
        assert_eq!(nearest("", known), None);
    }

    #[test]
    fn distance_counts_edits() {
        let d = |a: &str, b: &str| distance(&a.chars().collect::<Vec<_>>(), b);
        assert_eq!(d("kitten", "sitting"), 3);
        assert_eq!(d("", "abc"), 3);
        assert_eq!(d("abc", ""), 3);
        assert_eq!(d("same", "same"), 0);
    }
}
