//! What reading a section needs: the file's unit, and the findings so far.

use std::fmt::Display;

use crate::findings::{Finding, Severity};
use crate::scenario::file::{Amount, Written};
use crate::scenario::shape::clip;
use crate::units::{Length, Notation, Unit, parse_decimal, parse_length};

/// The lengths a field may have, both ends included.
#[derive(Debug, Clone, Copy)]
pub(super) struct Range {
    pub least: Length,
    pub most: Length,
}

/// A range in millimetres.
pub(super) const fn mm(least: i64, most: i64) -> Range {
    Range { least: Length::mm(least), most: Length::mm(most) }
}

/// Collects findings while sections are read, so that none hides another.
pub(super) struct Context {
    /// Unit of bare numbers.
    pub unit: Unit,
    /// How ranges are printed.
    pub notation: Notation,
    /// Everything found so far.
    pub findings: Vec<Finding>,
    blamed: Vec<String>,
}

impl Context {
    pub(super) fn new(unit: Unit, notation: Notation, findings: Vec<Finding>) -> Self {
        let blamed = findings.iter().map(|f| f.place.clone()).collect();
        Context { unit, notation, findings, blamed }
    }

    /// Says what stops the scenario; from then on nothing is concluded from that place.
    pub(super) fn stop(
        &mut self,
        code: &str,
        place: &str,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) {
        self.blamed.push(place.to_owned());
        self.findings.push(Finding::new(Severity::Stop, code, place, message, hint));
    }

    /// Says what stops the scenario, with the numbers behind it.
    pub(super) fn stop_with(
        &mut self,
        code: &str,
        place: &str,
        message: String,
        hint: String,
        numbers: &[(&str, String)],
    ) {
        let finding = Finding::new(Severity::Stop, code, place, message, hint);
        self.blame(numbers.iter().fold(finding, |f, (name, value)| f.number(name, value.clone())));
    }

    /// Takes up a finding; from then on nothing is concluded from its place.
    pub(super) fn blame(&mut self, finding: Finding) {
        self.blamed.push(finding.place.clone());
        self.findings.push(finding);
    }

    /// A length to the finest step of the notation's unit, where a coarser one would hide what is wrong.
    pub(super) fn exactly(&self, length: Length) -> String {
        self.notation.finest().print(length)
    }

    /// Whether a section, what holds it, or anything in it is missing or wrong.
    pub(super) fn blamed_within(&self, place: &str) -> bool {
        self.blamed(place)
            || self.blamed.iter().any(|blamed| {
                let rest = blamed.strip_prefix(place);
                rest.is_some_and(|rest| rest.starts_with(['.', '[']))
            })
    }

    /// Whether a field, or what holds it, is missing or wrong: then nothing is known of it.
    pub(super) fn blamed(&self, place: &str) -> bool {
        self.blamed.iter().any(|blamed| {
            let rest = place.strip_prefix(blamed.as_str());
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        })
    }

    /// Whether any field of any entry of a list, or the list itself, is missing or wrong.
    pub(super) fn list_blamed(&self, list: &str, field: &str) -> bool {
        self.blamed(list)
            || self.blamed.iter().any(|blamed| {
                let entry = blamed.strip_prefix(list).is_some_and(|rest| rest.starts_with('['));
                entry && (blamed.ends_with(']') || blamed.ends_with(field))
            })
    }

    /// Says that a field is missing, unless it or what holds it is known to be.
    pub(super) fn missing(&mut self, place: &str, hint: impl Into<String>) {
        if !self.blamed(place) {
            self.stop(
                "missing-field",
                place,
                format!("`{place}` is missing, and nothing stands in for it."),
                hint,
            );
        }
    }

    /// A length that may be left out.
    pub(super) fn length_if_any(
        &mut self,
        place: &str,
        written: Option<&Written>,
        range: Range,
    ) -> Option<Length> {
        let (text, bare) = match written? {
            Written::Text(text) => (text, format!("\"{}\"", clip(text))),
            Written::Number(number) => (number, clip(number)),
            Written::Nothing => {
                self.missing(
                    place,
                    format!("Write a length {}, or take the entry out.", self.between(range)),
                );
                return None;
            }
        };
        match parse_length(text, self.unit) {
            Ok(length) if length >= range.least && length <= range.most => Some(length),
            Ok(_) => {
                let allowed = self.between(range);
                self.stop(
                    "length-range",
                    place,
                    format!("`{place}` is {bare}, which is out of range."),
                    format!(
                        "Write a length {allowed}; a number without a unit is in {}.",
                        self.unit_name()
                    ),
                );
                None
            }
            Err(error) => {
                let allowed = self.between(range);
                self.stop(
                    "length-unreadable",
                    place,
                    format!("`{place}` is {bare}, which is not a length. {error}"),
                    format!("Write a length {allowed}, such as {}.", self.sample()),
                );
                None
            }
        }
    }

    /// A length with a default.
    pub(super) fn length(
        &mut self,
        place: &str,
        written: Option<&Written>,
        range: Range,
        default: Length,
    ) -> Length {
        self.length_if_any(place, written, range).unwrap_or(default)
    }

    /// A length without a default. What is given for a missing one stops the scenario anyway.
    pub(super) fn length_needed(
        &mut self,
        place: &str,
        written: Option<&Written>,
        range: Range,
    ) -> Length {
        if written.is_none() {
            let hint =
                format!("Write a length {}, such as {}.", self.between(range), self.sample());
            self.missing(place, hint);
        }
        self.length(place, written, range, range.least)
    }

    /// A list of lengths; entries that are wrong are told and left out.
    pub(super) fn lengths(
        &mut self,
        place: &str,
        written: &[Written],
        range: Range,
        most: usize,
    ) -> Vec<Length> {
        self.count(place, written.len(), 0, most);
        let mut lengths = Vec::new();
        for (n, entry) in written.iter().take(most).enumerate() {
            lengths.extend(self.length_if_any(&format!("{place}[{n}]"), Some(entry), range));
        }
        lengths
    }

    /// A whole number with a default.
    pub(super) fn whole(
        &mut self,
        place: &str,
        written: Option<&Amount>,
        least: i64,
        most: i64,
        default: i64,
    ) -> i64 {
        let Some(Amount(text)) = written else {
            return default;
        };
        let value = parse_decimal(text).ok().filter(|d| d.above % d.below == 0);
        match value.and_then(|d| i64::try_from(d.above / d.below).ok()) {
            Some(value) if (least..=most).contains(&value) => value,
            _ => {
                self.number_range(place, text, "a whole number", least, most, "");
                default
            }
        }
    }

    /// A decimal number with a default, times a thousand and rounded: kilograms to grams.
    pub(super) fn thousandths(
        &mut self,
        place: &str,
        written: Option<&Amount>,
        least: i64,
        most: i64,
        default: i64,
    ) -> i64 {
        let Some(Amount(text)) = written else {
            return default;
        };
        let value = parse_decimal(text).ok().map(|d| (2_000 * d.above + d.below) / (2 * d.below));
        match value.and_then(|v| i64::try_from(v).ok()) {
            Some(value) if (least * 1000..=most * 1000).contains(&value) => value,
            _ => {
                self.number_range(place, text, "a number", least, most, " kg");
                default
            }
        }
    }

    fn number_range(
        &mut self,
        place: &str,
        text: &str,
        what: &str,
        least: i64,
        most: i64,
        unit: &str,
    ) {
        self.stop(
            "number-range",
            place,
            format!("`{place}` is {}, which is not {what} in range.", clip(text)),
            format!("Write {what} from {least} to {most}{unit}."),
        );
    }

    /// Whether a list is neither too short nor too long.
    pub(super) fn count(&mut self, place: &str, count: usize, least: usize, most: usize) {
        if !(least..=most).contains(&count) {
            self.stop(
                "list-length",
                place,
                format!("`{place}` has {count} entries."),
                format!("Give from {least} to {most} entries."),
            );
        }
    }

    /// A text for people, with a default.
    pub(super) fn text(
        &mut self,
        place: &str,
        written: Option<&str>,
        most: usize,
        default: &str,
    ) -> String {
        let Some(text) = written else {
            return default.to_owned();
        };
        let text = text.trim();
        let length = text.chars().count();
        if length == 0 || length > most || text.chars().any(char::is_control) {
            self.stop(
                "text-range",
                place,
                format!("`{place}` is empty, too long, or holds a line break or another control character."),
                format!("Write from 1 to {most} characters on one line."),
            );
        }
        text.to_owned()
    }

    /// The range in words, rounded inwards to what the notation can show.
    pub(super) fn between(&self, range: Range) -> impl Display + use<> {
        let (steps, unit) = (self.notation.steps(), self.notation.unit().micrometres());
        let up = (range.least.get() * steps + unit - 1).div_euclid(unit);
        let down = (range.most.get() * steps).div_euclid(unit);
        let print = |count: i64| self.notation.print(Length::um(count * unit / steps));
        format!("from {} to {}", print(up), print(down))
    }

    fn sample(&self) -> &'static str {
        if self.unit.is_imperial() { "\"23 5/8\" or \"600 mm\"" } else { "600 or \"23 5/8 in\"" }
    }

    fn unit_name(&self) -> &'static str {
        match self.unit {
            Unit::Inch => "inches",
            Unit::Foot => "feet",
            Unit::Millimetre => "millimetres",
            Unit::Centimetre => "centimetres",
            Unit::Metre => "metres",
        }
    }
}
