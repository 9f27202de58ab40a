//! Scenarios for the tests, built by hand.

use crate::plan::Workshop;
use crate::scenario::*;
use crate::units::{Length, Notation};

fn inch(n: i64, d: i64) -> Length {
    Length::inch(n, d)
}

fn mm(n: i64) -> Length {
    Length::mm(n)
}

fn material(
    id: &str,
    kind: MaterialKind,
    thickness: Length,
    density: i64,
    grain: bool,
) -> Material {
    Material { id: id.to_owned(), name: id.to_owned(), kind, thickness, density, grain }
}

fn screw(gauge: u8, length: Length, head: Head) -> Screw {
    Screw { gauge, length, head }
}

fn workshop() -> Workshop {
    Workshop {
        drill_length: 254_000,
        drill_width: 76_200,
        bit_width: 12_700,
        bit_length: 88_900,
        bench_length: 1_828_800,
        bench_width: 762_000,
        bench_height: 863_600,
        bearers: 40_000,
        reach_height: 1_574_800,
        clamps: vec![609_600, 914_400],
        people: 1,
        square_check: "tape".to_owned(),
        tools: Vec::new(),
        glue: crate::plan::Glue::default(),
        offcuts: Vec::new(),
        person: None,
    }
}

/// A cabinet's scenario laid open, so that a test may change any of it.
#[derive(Debug, Clone)]
pub struct Sample {
    pub title: String,
    pub notation: Notation,
    pub space: Space,
    pub contents: Vec<Content>,
    pub build: Build,
    pub shop: Shop,
}

impl Sample {
    /// As the design takes it.
    pub fn scenario(&self) -> Scenario {
        Scenario {
            title: self.title.clone(),
            notation: self.notation,
            subject: Subject::Cabinet(Box::new(Cabinet {
                space: self.space.clone(),
                run: None,
                contents: self.contents.clone(),
                build: self.build.clone(),
            })),
            shop: self.shop.clone(),
            wishes: crate::wishes::Wishes::default(),
            made: crate::scenario::Made::default(),
            cut: CutWishes::default(),
            install: crate::scenario::Install::default(),
            accepted: Vec::new(),
        }
    }
}

/// Two bins in line on undermount runners, inches.
pub fn mudroom() -> Sample {
    Sample {
        title: "Recycling pull-out".to_owned(),
        notation: Notation::Inch16,
        space: Space {
            widths: vec![
                WidthAt { at: inch(2, 1), width: inch(161, 8), back: false },
                WidthAt { at: inch(18, 1), width: inch(321, 16), back: false },
                WidthAt { at: inch(34, 1), width: inch(161, 8), back: false },
            ],
            height: inch(139, 4),
            depth: inch(24, 1),
            left: Neighbour::Unit,
            right: Neighbour::Unit,
            floor: Floor { out_of_level: inch(1, 8) },
            measured: crate::scenario::Measured::default(),
        },
        contents: vec![Content {
            name: "bin".to_owned(),
            width: inch(29, 2),
            depth: inch(19, 2),
            height: inch(18, 1),
            count: 2,
            clearance: inch(1, 4),
            mass_g: 9000,
            arrange: Arrange::InLine,
            lift: mm(0),
        }],
        build: Build {
            interior: Interior::PullOut(PullOut {
                material: "ply-1/2".to_owned(),
                bottom_material: "ply-1/4".to_owned(),
                side_height: Some(inch(8, 1)),
                groove_depth: inch(1, 4),
                bottom_recess: inch(1, 2),
                bottom_play: inch(1, 16),
                runner: Runner {
                    kind: RunnerKind::Undermount,
                    lengths: [9, 12, 15, 18, 21].map(|n| inch(n, 1)).to_vec(),
                    inside_deduction: inch(13, 8),
                    side_limit: inch(5, 8),
                    thickness: inch(1, 2),
                    height: mm(45),
                    under: inch(9, 16),
                    notch_width: inch(11, 8),
                    notch_height: inch(1, 2),
                    travel: None,
                    rating_g: None,
                },
            }),
            banding: Length::ZERO,
            pins: Vec::new(),
            drawers: None,
            doors: None,
            dividers: 0,
            carcass: Carcass {
                foot: Foot::Integral,
                top: Top::Stretcher,
                top_overhang: Length::ZERO,
                material: "mdf-3/4".to_owned(),
                width: None,
                height: None,
                depth: None,
                side_gap: inch(1, 16),
                top_gap: inch(1, 8),
                joint: CarcassJoint::Butt,
                dado_depth: inch(1, 4),
                glue: true,
                toe_height: inch(4, 1),
                toe_recess: inch(3, 1),
                stretcher_width: inch(4, 1),
                nailer_height: inch(4, 1),
            },
            back: Back {
                material: "ply-1/4".to_owned(),
                set: BackSet::Applied,
                pieces: 1,
                seam: Seam::Upright,
            },
            front: Some(Front {
                material: "mdf-3/4".to_owned(),
                style: FrontStyle::One,
                inset: false,
                reveal: inch(1, 8),
                handle: mm(40),
            }),
        },
        shop: Shop {
            materials: vec![
                material("mdf-3/4", MaterialKind::Mdf, inch(3, 4), 750, false),
                material("ply-1/2", MaterialKind::Plywood, inch(15, 32), 600, true),
                material("ply-5/8", MaterialKind::Plywood, inch(5, 8), 600, true),
                material("ply-1/4", MaterialKind::Plywood, inch(7, 32), 600, true),
            ],
            screws: vec![
                screw(8, inch(2, 1), Head::Flat),
                screw(8, inch(5, 4), Head::Flat),
                screw(6, inch(5, 4), Head::Flat),
                screw(6, inch(3, 4), Head::Pan),
                screw(6, inch(1, 1), Head::Pan),
                screw(6, inch(1, 2), Head::Pan),
            ],
            workshop: workshop(),
            room_c: None,
            glue_least_c: 10,
            stock: Vec::new(),
            saw: Saw {
                kerf: mm(3),
                trim: mm(6),
                fence: mm(760),
                panel_length: mm(1830),
                panel_width: mm(920),
                lift_g: 25_000,
                least_cut: mm(0),
                stages: 3,
            },
            supplies: Vec::new(),
        },
    }
}

/// Two bins side by side on side-mount runners, millimetres, back in two pieces.
pub fn potting_shed() -> Sample {
    let mut s = mudroom();
    s.notation = Notation::MmHalf;
    s.space = Space {
        widths: vec![WidthAt { at: mm(400), width: mm(606), back: false }],
        height: mm(880),
        depth: mm(600),
        left: Neighbour::Wall,
        right: Neighbour::Open,
        floor: Floor { out_of_level: mm(0) },
        measured: crate::scenario::Measured::default(),
    };
    s.contents = vec![Content {
        name: "sack bin".to_owned(),
        width: mm(240),
        depth: mm(400),
        height: mm(420),
        count: 2,
        clearance: mm(5),
        mass_g: 12_000,
        arrange: Arrange::SideBySide,
        lift: mm(0),
    }];
    let c = &mut s.build.carcass;
    (c.side_gap, c.top_gap, c.toe_height, c.toe_recess) = (mm(2), mm(3), mm(100), mm(60));
    (c.stretcher_width, c.nailer_height, c.dado_depth) = (mm(100), mm(100), mm(6));
    c.material = "ply-18".to_owned();
    s.build.back = Back {
        material: "ply-6".to_owned(),
        set: BackSet::Applied,
        pieces: 2,
        seam: Seam::Upright,
    };
    if let Interior::PullOut(p) = &mut s.build.interior {
        p.material = "ply-12".to_owned();
        p.bottom_material = "ply-6".to_owned();
        p.side_height = None;
        (p.groove_depth, p.bottom_recess, p.bottom_play) = (mm(6), mm(12), mm(2));
        p.runner.kind = RunnerKind::SideMount;
        p.runner.thickness = Length(12_700);
        p.runner.lengths = [300, 350, 400, 450, 500, 550].map(mm).to_vec();
    }
    s.build.front = Some(Front {
        material: "ply-18".to_owned(),
        style: FrontStyle::DrawerOverDoors { drawer_height: mm(150) },
        inset: false,
        reveal: mm(3),
        handle: mm(40),
    });
    s.shop.materials = vec![
        material("ply-18", MaterialKind::Plywood, mm(18), 640, true),
        material("ply-12", MaterialKind::Plywood, mm(12), 640, true),
        material("ply-6", MaterialKind::Plywood, mm(6), 640, true),
    ];
    s.shop.screws = vec![
        screw(8, mm(50), Head::Flat),
        screw(6, mm(35), Head::Flat),
        screw(6, mm(25), Head::Flat),
        screw(6, mm(25), Head::Pan),
        screw(6, mm(20), Head::Pan),
        screw(4, Length(9500), Head::Pan),
    ];
    s
}

/// An open base with one shelf in dadoes.
pub fn open_base() -> Sample {
    let mut s = mudroom();
    s.contents.clear();
    s.build.front = None;
    s.build.carcass.joint = CarcassJoint::Dado;
    s.build.interior = Interior::Shelves(Shelves {
        material: "mdf-3/4".to_owned(),
        heights: Vec::new(),
        count: 1,
        setback: inch(1, 1),
        pins: None,
    });
    s
}
