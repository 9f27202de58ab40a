//! Puts a [`Moment`] on the canvas. The only module that draws.

mod brush;
mod buffers;

use jointwise::export::clamp::Since;
use three_d::{
    ClearState, Context, CoreError, InnerSpace, RenderTarget, Vec3, Viewport, vec3, vec4,
};

use crate::camera::Camera;
use crate::edges::Skin;
use crate::scene::{Item, Model, Moment, PartLook, Role, Section};
use crate::shapes::{around, bench_skin, corner_marks, ring, slab_skin};
use crate::theme::{Theme, mix};
use brush::{Brush, Frame, Stroke};
use buffers::{Body, Lines};

/// Everything of one plan on the graphics processor.
pub struct Painter {
    context: Context,
    brush: Brush,
    parts: Vec<Body>,
    screws: Vec<Body>,
    bench: Body,
    /// Screws driven before the step, and those that come in with another body, each as one, as far
    /// as a section leaves them.
    earlier: Option<Earlier>,
    /// What a section leaves of each part, and the faces where it cuts.
    cut: Option<(Section, Vec<(Body, Body)>)>,
}

struct Earlier {
    step: usize,
    section: Option<Section>,
    driven: Body,
    carried: Body,
}

/// How much of its own tone glass has.
const GLASS: f32 = 0.22;

/// What a frame is drawn for.
pub struct Sheet<'a> {
    pub model: &'a Model,
    pub step: usize,
    pub moment: &'a Moment,
    pub camera: &'a Camera,
    pub theme: &'a Theme,
    /// Canvas in physical pixels.
    pub size: (u32, u32),
    /// Physical pixels in a CSS pixel.
    pub ratio: f32,
}

impl Painter {
    pub fn new(context: Context, model: &Model) -> Result<Painter, CoreError> {
        let brush = Brush::new(&context)?;
        let bench = Body::new(&context, &bench_skin(model.bench()));
        let (parts, screws) = (Vec::new(), Vec::new());
        let mut painter =
            Painter { context, brush, parts, screws, bench, earlier: None, cut: None };
        painter.load(model);
        Ok(painter)
    }

    /// Another plan in place of this one. The programs stay: to compile them is what takes longest.
    pub fn load(&mut self, model: &Model) {
        let context = &self.context;
        self.parts = model.parts.iter().map(|p| Body::new(context, &p.skin)).collect();
        self.screws = model.screws.iter().map(|s| Body::new(context, &s.skin)).collect();
        self.bench = Body::new(context, &bench_skin(model.bench()));
        self.earlier = None;
        self.cut = None;
    }

    pub fn draw(&mut self, sheet: &Sheet) {
        self.gather(sheet);
        let (width, height) = sheet.size;
        let paper = sheet.theme.paper;
        let target = RenderTarget::screen(&self.context, width, height);
        target.clear(ClearState::color_and_depth(paper.x, paper.y, paper.z, 1.0, 1.0));
        let frame = frame(sheet);
        let drawn: Result<_, CoreError> = target.write(|| {
            self.bench(sheet, &frame);
            self.parts(sheet, &frame);
            self.screws(sheet, &frame);
            self.spacer(sheet, &frame);
            self.clamps(sheet, &frame);
            self.guides(sheet, &frame);
            self.measures(sheet, &frame);
            Ok(())
        });
        // Nothing in there can fail; a lost context is asked about before drawing.
        let _ = drawn;
    }

    fn gather(&mut self, sheet: &Sheet) {
        let section = sheet.moment.section;
        if let Some(section) = section
            && self.cut.as_ref().is_none_or(|cut| cut.0 != section)
        {
            let body = |skin: &Skin| Body::new(&self.context, skin);
            let skins = sheet.model.parts.iter().map(|part| section.skins(part));
            self.cut =
                Some((section, skins.map(|(rest, cut)| (body(&rest), body(&cut))).collect()));
        }
        if self.earlier.as_ref().is_some_and(|e| (e.step, e.section) == (sheet.step, section)) {
            return;
        }
        let Some(station) = sheet.model.station(sheet.step) else {
            return;
        };
        let left = |screw: usize| section.is_none_or(|s| s.keeps_screw(sheet.model, screw));
        let merged = |screws: &[usize]| {
            let seen = screws.iter().filter(|&&i| left(i));
            let skins = seen.filter_map(|&i| sheet.model.screws.get(i)).map(|s| &s.skin);
            Body::merged(&self.context, skins)
        };
        let (driven, carried) = (merged(&station.driven), merged(&station.carried));
        self.earlier = Some(Earlier { step: sheet.step, section, driven, carried });
    }

    /// A part's look, what is drawn of it, and the faces where it is cut open.
    fn look<'a>(
        &'a self,
        sheet: &Sheet<'a>,
        index: usize,
    ) -> Option<(&'a PartLook, &'a Body, Option<&'a Body>)> {
        let part = sheet.model.parts.get(index)?;
        match (sheet.moment.section, &self.cut) {
            (Some(_), Some((_, bodies))) => {
                bodies.get(index).map(|(rest, cut)| (part, rest, Some(cut)))
            }
            _ => Some((part, self.parts.get(index)?, None)),
        }
    }

    fn bench(&self, sheet: &Sheet, frame: &Frame) {
        let on_bench = sheet.model.station(sheet.step).is_none_or(|s| s.on_bench);
        if on_bench {
            let still = Camera::unmoved();
            self.brush.faces(frame, &self.bench.faces, still, sheet.theme.bench, true);
            let stroke = Stroke { fades: true, ..Stroke::new(sheet.theme.quiet, 1.2) };
            self.brush.lines(frame, &self.bench.lines, still, stroke);
        }
        for strip in sheet.model.bearers.get(sheet.step).into_iter().flatten() {
            let (body, still) = (Body::new(&self.context, &slab_skin(strip)), Camera::unmoved());
            let color = mix(sheet.theme.bench, sheet.theme.quiet, 0.18);
            if sheet.moment.aids_open {
                self.brush.glass(frame, &body.faces, still, color.extend(GLASS));
            } else {
                self.brush.faces(frame, &body.faces, still, color, true);
            }
            let stroke = Stroke { fades: true, ..Stroke::new(sheet.theme.quiet, 1.0) };
            self.brush.lines(frame, &body.lines, still, stroke);
        }
        let dark = vec3(0., 0., 0.);
        for item in &sheet.moment.items {
            let Some(part) = sheet.model.parts.get(item.index) else {
                continue;
            };
            for slab in sheet.moment.left_of(part) {
                let corners = slab.corners().map(|c| sheet.moment.pose.point(c + item.offset));
                let spread = around(&corners);
                let high = spread.min.z.max(0.0);
                // The higher above the bench, the wider and fainter.
                let strength = sheet.theme.shadow / (1.0 + high / 40.0);
                if strength < 0.02 {
                    continue;
                }
                let area = vec4(spread.min.x, spread.min.y, spread.max.x, spread.max.y);
                self.brush.shadow(frame, area, 14.0 + high * 0.35, dark.extend(strength));
            }
        }
    }

    fn parts(&self, sheet: &Sheet, frame: &Frame) {
        let (theme, pose) = (sheet.theme, sheet.moment.pose);
        let tone = |item: &Item, part: &PartLook| match item.role {
            Role::Context => theme.pale(part.tone),
            _ => theme.full(part.tone),
        };
        let items = || sheet.moment.items.iter();
        let filled = |item: &Item| {
            if let Some((part, body, cut)) = self.look(sheet, item.index) {
                let (matrix, color) = (pose.matrix(item.offset), tone(item, part));
                self.brush.faces(frame, &body.faces, matrix, color, false);
                if let Some(cut) = cut {
                    // Sawn wood is darker than a face, and so the plane stands out.
                    let color = mix(theme.full(part.tone), theme.ink, 0.22);
                    self.brush.faces(frame, &cut.faces, matrix, color, false);
                }
            }
        };
        let solid = |item: &&Item| !sheet.moment.through && !item.open;
        items().filter(solid).filter(|i| i.role != Role::Moving).for_each(filled);
        // Its edges where others are in front, before it covers its own.
        let hidden = Stroke::new(theme.moves, 1.6).dashed(6.0, 5.0).alpha(0.6).behind();
        let moving = || items().filter(|i| i.role == Role::Moving);
        for item in moving() {
            if let Some((_, body, _)) = self.look(sheet, item.index) {
                self.brush.lines(frame, &body.lines, pose.matrix(item.offset), hidden);
            }
        }
        moving().filter(solid).for_each(filled);
        for item in items().filter(|item| !sheet.moment.through && item.open) {
            if let Some((part, body, _)) = self.look(sheet, item.index) {
                let color = tone(item, part).extend(GLASS);
                self.brush.glass(frame, &body.faces, pose.matrix(item.offset), color);
            }
        }
        let strokes = |role: Role| match role {
            Role::Context => Stroke::new(theme.quiet, 1.1),
            Role::Focus => Stroke::new(theme.ink, 1.5),
            Role::Whole => Stroke::new(theme.moves, 1.8),
            Role::Moving => Stroke::new(theme.moves, 2.6),
        };
        // Thick edges last, so that no thin one crosses them.
        for role in [Role::Context, Role::Focus, Role::Whole, Role::Moving] {
            for item in sheet.moment.items.iter().filter(|i| i.role == role) {
                let Some((_, body, _)) = self.look(sheet, item.index) else {
                    continue;
                };
                let matrix = pose.matrix(item.offset);
                self.brush.lines(frame, &body.lines, matrix, strokes(role));
            }
        }
        for item in &sheet.moment.ghosts {
            let Some((_, body, _)) = self.look(sheet, item.index) else {
                continue;
            };
            let stroke = Stroke::new(theme.moves, 1.4).dashed(6.0, 4.0);
            self.brush.lines(frame, &body.lines, pose.matrix(item.offset), stroke);
        }
    }

    fn screws(&self, sheet: &Sheet, frame: &Frame) {
        let (theme, moment) = (sheet.theme, sheet.moment);
        let quiet = Stroke::new(theme.quiet, 1.0);
        if let (Some(earlier), false) = (&self.earlier, moment.apart) {
            for (body, offset) in
                [(&earlier.driven, moment.driven_offset), (&earlier.carried, moment.carried_offset)]
            {
                let matrix = moment.pose.matrix(offset);
                let steel = mix(theme.steel, theme.paper, 0.4);
                self.brush.faces(frame, &body.faces, matrix, steel, false);
                self.brush.lines(frame, &body.lines, matrix, quiet);
            }
        }
        let axes = Lines::new(&self.context, &moment.axes);
        let still = Camera::unmoved();
        let guide = Stroke::new(theme.moves, 1.5).dashed(5.0, 4.0);
        self.brush.lines(frame, &axes, still, guide);
        self.brush.lines(frame, &axes, still, guide.alpha(0.5).behind());
        // A head is a few pixels wide: a ring round it says where, from two metres away.
        let radius = moment.ring(frame.pixel);
        let rings: Vec<[Vec3; 2]> =
            moment.entries.iter().flat_map(|[at, along]| ring(*at, *along, radius)).collect();
        let rings = Lines::new(&self.context, &rings);
        // On any tone of panel, light or dark.
        let halo = if theme.dark { theme.ink } else { theme.paper };
        self.brush.lines(frame, &rings, still, Stroke::new(halo, 4.6));
        self.brush.lines(frame, &rings, still, Stroke::new(theme.moves, 2.2));
        self.brush.lines(frame, &rings, still, Stroke::new(theme.moves, 1.6).alpha(0.4).behind());
        for item in &moment.screws {
            let Some(body) = self.screws.get(item.index) else {
                continue;
            };
            let matrix = moment.pose.matrix(item.offset);
            self.brush.faces(frame, &body.faces, matrix, theme.steel, false);
            self.brush.lines(frame, &body.lines, matrix, Stroke::new(theme.ink, 1.2));
        }
    }

    fn spacer(&self, sheet: &Sheet, frame: &Frame) {
        let Some(slab) = sheet.moment.spacer else {
            return;
        };
        let body = Body::new(&self.context, &slab_skin(&slab));
        let matrix = sheet.moment.pose.matrix(vec3(0., 0., 0.));
        let hidden = Stroke::new(sheet.theme.check, 1.6).dashed(6.0, 5.0).alpha(0.6).behind();
        self.brush.lines(frame, &body.lines, matrix, hidden);
        let color = mix(sheet.theme.check, sheet.theme.paper, 0.62);
        if sheet.moment.aids_open {
            self.brush.glass(frame, &body.faces, matrix, color.extend(GLASS));
        } else {
            self.brush.faces(frame, &body.faces, matrix, color, false);
        }
        let stroke = Stroke::new(sheet.theme.check, 2.2);
        self.brush.lines(frame, &body.lines, matrix, stroke);
    }

    /// One that comes off is drawn by its edges only.
    fn clamps(&self, sheet: &Sheet, frame: &Frame) {
        let (theme, moment) = (sheet.theme, sheet.moment);
        let color = mix(theme.steel, theme.paper, 0.30);
        for clamp in &moment.clamps {
            let now = clamp.since == Since::Now;
            let offset = if now { vec3(0., 0., 0.) } else { moment.driven_offset };
            let matrix = moment.pose.matrix(offset);
            let solids: Vec<Body> =
                clamp.slabs.iter().map(|s| Body::new(&self.context, &slab_skin(s))).collect();
            let hidden = Stroke::new(theme.quiet, 1.2).dashed(4.0, 4.0).alpha(0.5).behind();
            let edge = Stroke::new(if now { theme.ink } else { theme.quiet }, 1.2);
            for body in &solids {
                self.brush.lines(frame, &body.lines, matrix, hidden);
            }
            for body in &solids {
                if clamp.since == Since::Off {
                    self.brush.lines(frame, &body.lines, matrix, edge.dashed(6.0, 4.0));
                    continue;
                }
                if moment.aids_open {
                    self.brush.glass(frame, &body.faces, matrix, color.extend(GLASS));
                } else {
                    self.brush.faces(frame, &body.faces, matrix, color, false);
                }
                self.brush.lines(frame, &body.lines, matrix, edge);
            }
        }
    }

    fn guides(&self, sheet: &Sheet, frame: &Frame) {
        let still = Camera::unmoved();
        for path in &sheet.moment.guides {
            let mut pieces: Vec<[Vec3; 2]> = path
                .windows(2)
                .filter_map(|w| match w {
                    &[a, b] => Some([a, b]),
                    _ => None,
                })
                .collect();
            // The shaft stops inside the head, or its round end would blunt the tip.
            if let Some([from, to]) = pieces.last_mut() {
                let way = *to - *from;
                let back = (frame.pixel * 8.0).min(way.magnitude());
                if back > 1e-3 {
                    *to -= way.normalize_to(back);
                }
            }
            let lines = Lines::new(&self.context, &pieces);
            // The head follows the whole of a short way, not only its last bit.
            let last = match (path.iter().rev().nth(5).or(path.first()), path.last()) {
                (Some(&a), Some(&b)) => Lines::new(&self.context, &[[a, b]]),
                _ => continue,
            };
            let halo = Stroke::new(sheet.theme.paper, 6.5).over();
            self.brush.lines(frame, &lines, still, halo);
            self.brush.lines(frame, &last, still, halo.head(21.0, 22.0));
            let guide = Stroke::new(sheet.theme.moves, 3.2).over();
            self.brush.lines(frame, &lines, still, guide);
            self.brush.lines(frame, &last, still, guide.head(18.0, 17.0));
        }
    }

    fn measures(&self, sheet: &Sheet, frame: &Frame) {
        let still = Camera::unmoved();
        let mut lines = Vec::new();
        let mut marks = Vec::new();
        for measure in &sheet.moment.measures {
            lines.push(measure.ends);
            marks.extend(corner_marks(measure.ends));
        }
        if lines.is_empty() {
            return;
        }
        let (lines, marks) = (Lines::new(&self.context, &lines), Lines::new(&self.context, &marks));
        let halo = Stroke::new(sheet.theme.paper, 6.0).over();
        self.brush.lines(frame, &lines, still, halo);
        self.brush.lines(frame, &marks, still, halo);
        self.brush.lines(frame, &lines, still, Stroke::new(sheet.theme.check, 3.0).over());
        self.brush.lines(frame, &marks, still, Stroke::new(sheet.theme.check, 2.6).over());
    }
}

fn frame(sheet: &Sheet) -> Frame {
    let (width, height) = sheet.size;
    let (near, far) = sheet.camera.depths();
    let (centre, radius) = sheet.camera.subject();
    let [right, _, forward] = sheet.camera.axes();
    let level = vec3(forward.x, forward.y, 0.0);
    let level = if level.magnitude() > 1e-3 { level.normalize() } else { right };
    Frame {
        view_projection: sheet.camera.matrix(),
        viewport: Viewport::new_at_origo(width, height),
        // Goes round with the eye: from the upper left, so that a tone always means one side.
        light: (vec3(0., 0., 1.0) * 0.78 - right * 0.52 - level * 0.34).normalize(),
        paper: sheet.theme.paper,
        fade: vec4(centre.x, centre.y, radius * 1.15, radius * 2.3),
        depth_scale: 2.0 * far * near / (far - near),
        ratio: sheet.ratio,
        pixel: sheet.camera.millimetres_per_pixel(),
    }
}
