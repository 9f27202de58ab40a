//! Drawings for a machine: DXF of the release 12 kind, in millimetres to the micrometre.
//!
//! Layers say the operation: `OUTLINE`, `GROOVE`, `HOLE`, `LABEL`; what is made from the other face stands on
//! `GROOVE-BACK` and `HOLE-BACK`, seen through the part; `SHEET` is the sheet itself. A groove's height is less
//! than nothing by its depth.

/// What stands on which layer, with its colour number.
const LAYERS: [(&str, u8); 7] = [
    ("OUTLINE", 7),
    ("GROOVE", 1),
    ("HOLE", 5),
    ("LABEL", 3),
    ("GROOVE-BACK", 6),
    ("HOLE-BACK", 4),
    ("SHEET", 8),
];

/// Read by whoever opens the file with an editor. Common practice, no source.
const CAUTION: [&str; 4] = [
    "Millimetres. Lines are the finished edges: tool diameter and its side are not allowed for.",
    "Check zero, tool, feed, depth and hold-down, and run it in the air first.",
    "Measure the sheet: grooves are as wide as the thickness that was given.",
    "Eye and ear protection, dust extraction, the machine's own instructions come first.",
];

/// A drawing in the making.
#[derive(Default)]
pub struct Dxf {
    entities: String,
    /// The far corner of all that was drawn.
    far: [i64; 2],
}

impl Dxf {
    /// A closed line at a height.
    pub fn closed(&mut self, layer: &str, points: &[[i64; 2]], height: i64) {
        let z = mm(height);
        self.add(&[
            ("0", "POLYLINE"),
            ("8", layer),
            ("66", "1"),
            ("70", "1"),
            ("10", "0.0"),
            ("20", "0.0"),
            ("30", &z),
        ]);
        for point in points {
            self.reach(*point);
            let [x, y] = point.map(mm);
            self.add(&[("0", "VERTEX"), ("8", layer), ("10", &x), ("20", &y), ("30", &z)]);
        }
        self.add(&[("0", "SEQEND"), ("8", layer)]);
    }

    /// A circle by its middle and its diameter.
    pub fn circle(&mut self, layer: &str, at: [i64; 2], diameter: i64) {
        let [x, y] = at.map(mm);
        let radius = mm(diameter / 2);
        self.add(&[
            ("0", "CIRCLE"),
            ("8", layer),
            ("10", &x),
            ("20", &y),
            ("30", "0.0"),
            ("40", &radius),
        ]);
    }

    /// A line of text by its lower left corner and its height.
    pub fn text(&mut self, at: [i64; 2], height: i64, text: &str) {
        let [x, y] = at.map(mm);
        let (height, text) = (mm(height), plain(text));
        self.add(&[
            ("0", "TEXT"),
            ("8", "LABEL"),
            ("10", &x),
            ("20", &y),
            ("30", "0.0"),
            ("40", &height),
            ("1", &text),
        ]);
    }

    /// The whole file.
    pub fn finish(self) -> String {
        let mut file = Dxf::default();
        for line in CAUTION {
            file.add(&[("999", line)]);
        }
        let [x, y] = self.far.map(mm);
        file.add(&[
            ("0", "SECTION"),
            ("2", "HEADER"),
            ("9", "$ACADVER"),
            ("1", "AC1009"),
            ("9", "$EXTMIN"),
            ("10", "0.0"),
            ("20", "0.0"),
            ("30", "0.0"),
            ("9", "$EXTMAX"),
            ("10", &x),
            ("20", &y),
            ("30", "0.0"),
            ("0", "ENDSEC"),
            ("0", "SECTION"),
            ("2", "TABLES"),
            ("0", "TABLE"),
            ("2", "LTYPE"),
            ("70", "1"),
            ("0", "LTYPE"),
            ("2", "CONTINUOUS"),
            ("70", "0"),
            ("3", "Solid line"),
            ("72", "65"),
            ("73", "0"),
            ("40", "0.0"),
            ("0", "ENDTAB"),
            ("0", "TABLE"),
            ("2", "LAYER"),
            ("70", &LAYERS.len().to_string()),
        ]);
        for (name, colour) in LAYERS {
            let colour = colour.to_string();
            file.add(&[
                ("0", "LAYER"),
                ("2", name),
                ("70", "0"),
                ("62", &colour),
                ("6", "CONTINUOUS"),
            ]);
        }
        file.add(&[("0", "ENDTAB"), ("0", "ENDSEC"), ("0", "SECTION"), ("2", "ENTITIES")]);
        let mut out = file.entities;
        out.push_str(&self.entities);
        out.push_str("0\r\nENDSEC\r\n0\r\nEOF\r\n");
        out
    }

    fn reach(&mut self, point: [i64; 2]) {
        self.far = [self.far[0].max(point[0]), self.far[1].max(point[1])];
    }

    fn add(&mut self, pairs: &[(&str, &str)]) {
        for (code, value) in pairs {
            for text in [code, value] {
                self.entities.push_str(text);
                self.entities.push_str("\r\n");
            }
        }
    }
}

/// Micrometres as millimetres, exactly.
fn mm(um: i64) -> String {
    let sign = if um < 0 { "-" } else { "" };
    let (whole, rest) = (um.unsigned_abs() / 1000, um.unsigned_abs() % 1000);
    format!("{sign}{whole}.{rest:03}")
}

/// The release knows no characters beyond ASCII: a sign that says the same, else a question mark.
fn plain(text: &str) -> String {
    let one = |c: char| match c {
        '×' => 'x',
        ' '..='~' => c,
        _ => '?',
    };
    text.chars().map(one).collect()
}
