//! Colours of the picture. Each means one thing, and each has a second sign.

use three_d::{Vec3, vec3};

/// What a part is made of, as far as its look goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Fibreboard: warm brown-grey.
    Fibreboard,
    /// Plywood: light birch.
    Plywood,
    /// Particleboard or a faced board.
    Board,
    /// Solid wood.
    Solid,
    /// Metal and plastic: cool grey.
    Hardware,
}

impl Tone {
    /// The tone that fits the words a material is bought by.
    pub fn of(material_name: &str, is_hardware: bool) -> Tone {
        if is_hardware {
            return Tone::Hardware;
        }
        let name = material_name.to_ascii_lowercase();
        let says = |words: &[&str]| words.iter().any(|w| name.contains(w));
        if says(&["mdf", "fibre", "fiber", "hardboard"]) {
            Tone::Fibreboard
        } else if says(&["ply", "birch"]) {
            Tone::Plywood
        } else if says(&["particle", "melamine", "chip", "board"]) {
            Tone::Board
        } else {
            Tone::Solid
        }
    }

    fn light(self) -> Vec3 {
        match self {
            Tone::Fibreboard => rgb(0xC2_A4_80),
            Tone::Plywood => rgb(0xEB_CF_97),
            Tone::Board => rgb(0xD8_CF_C0),
            Tone::Solid => rgb(0xD9_AE_74),
            Tone::Hardware => rgb(0x9A_A6_B2),
        }
    }
}

/// One set of colours, each as red, green and blue from 0 to 1.
#[derive(Debug, Clone, Copy)]
pub struct Theme {
    /// Whether it is the dark one.
    pub dark: bool,
    /// What the drawing is on.
    pub paper: Vec3,
    /// Bench top.
    pub bench: Vec3,
    /// Edges of what is in hand.
    pub ink: Vec3,
    /// Edges of what is already in.
    pub quiet: Vec3,
    /// What moves now.
    pub moves: Vec3,
    /// What to measure.
    pub check: Vec3,
    /// Heads and shanks.
    pub steel: Vec3,
    /// Darkest the contact shadow gets, 0 to 1.
    pub shadow: f32,
}

/// Red, green and blue from `0xRRGGBB`.
pub fn rgb(hex: u32) -> Vec3 {
    let channel = |shift: u32| ((hex >> shift) & 0xFF) as f32 / 255.0;
    vec3(channel(16), channel(8), channel(0))
}

/// From `a` (0) to `b` (1).
pub fn mix(a: Vec3, b: Vec3, t: f32) -> Vec3 {
    a + (b - a) * t
}

impl Theme {
    /// The light or the dark set.
    pub fn new(dark: bool) -> Theme {
        if dark {
            Theme {
                dark,
                paper: rgb(0x14_18_1C),
                bench: rgb(0x2A_2E_31),
                ink: rgb(0x0C_0F_12),
                quiet: rgb(0x8B_93_9B),
                moves: rgb(0x8E_C5_FF),
                check: rgb(0x86_E0_B0),
                steel: rgb(0xC9_D2_DA),
                shadow: 0.55,
            }
        } else {
            Theme {
                dark,
                paper: rgb(0xF7_F4_ED),
                bench: rgb(0xDB_D2_C0),
                ink: rgb(0x1B_1F_24),
                quiet: rgb(0x6E_6A_62),
                moves: rgb(0x13_4F_8C),
                check: rgb(0x14_57_3A),
                steel: rgb(0x8C_96_A0),
                shadow: 0.30,
            }
        }
    }

    /// A part's face in full tone.
    pub fn full(&self, tone: Tone) -> Vec3 {
        if self.dark { tone.light() * 0.68 } else { tone.light() }
    }

    /// A part's face when it is only context.
    pub fn pale(&self, tone: Tone) -> Vec3 {
        if self.dark {
            mix(tone.light(), rgb(0x2B_31_37), 0.78)
        } else {
            mix(tone.light(), rgb(0xFD_FB_F7), 0.70)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_the_trade_give_the_tone() {
        assert_eq!(Tone::of("3/4 in MDF", false), Tone::Fibreboard);
        assert_eq!(Tone::of("18 mm birch plywood", false), Tone::Plywood);
        assert_eq!(Tone::of("21 in undermount runner", true), Tone::Hardware);
        assert_eq!(Tone::of("oak", false), Tone::Solid);
    }

    #[test]
    fn pale_is_nearer_to_the_paper_than_full() {
        for dark in [false, true] {
            let t = Theme::new(dark);
            let far = |c: Vec3| (0..3).map(|i| (c[i] - t.paper[i]).abs()).sum::<f32>();
            for tone in [Tone::Fibreboard, Tone::Plywood, Tone::Board, Tone::Solid, Tone::Hardware]
            {
                assert!(far(t.pale(tone)) < far(t.full(tone)), "{tone:?} dark {dark}");
            }
        }
    }
}
