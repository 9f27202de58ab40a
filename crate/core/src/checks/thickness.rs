//! Published thickness ranges of plywood.

/// Performance categories of plywood in thousandths of an inch: name, least, most (PS 1-19).
pub const CATEGORIES: [(&str, i64, i64); 4] =
    [("1/4", 219, 281), ("1/2", 469, 531), ("23/32", 688, 750), ("3/4", 719, 781)];

/// Whether a thickness lies within a category, rounded to the thousandth that the standard prints.
pub fn in_category(um: i64, least: i64, most: i64) -> bool {
    let thousandths = (um * 10 + 127) / 254;
    (least..=most).contains(&thousandths)
}
