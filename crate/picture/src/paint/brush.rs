//! The three ways of drawing: a lit face, a line of constant width, a soft shadow.

use three_d::{
    Blend, Context, CoreError, DepthTest, Mat4, Program, RenderStates, Vec2, Vec3, Vec4, Viewport,
    WriteMask, vec2, vec4,
};

use super::buffers::{Faces, Lines};

/// What all drawing of one frame shares.
pub struct Frame {
    pub view_projection: Mat4,
    pub viewport: Viewport,
    pub light: Vec3,
    pub paper: Vec3,
    /// Centre and radii within which bench and long lines fade into the paper.
    pub fade: Vec4,
    /// Turns millimetres towards the eye into depth.
    pub depth_scale: f32,
    /// Physical pixels in a CSS pixel.
    pub ratio: f32,
    /// Millimetres under a CSS pixel.
    pub pixel: f32,
}

/// How a line looks. Widths in CSS pixels.
#[derive(Clone, Copy)]
pub struct Stroke {
    pub color: Vec4,
    pub width: (f32, f32),
    pub dash: (f32, f32),
    pub head: f32,
    pub depth: DepthTest,
    pub fades: bool,
}

impl Stroke {
    pub fn new(color: Vec3, width: f32) -> Stroke {
        Stroke {
            color: color.extend(1.0),
            width: (width, width),
            dash: (0.0, 0.0),
            head: 0.0,
            depth: DepthTest::LessOrEqual,
            fades: false,
        }
    }

    pub fn alpha(mut self, alpha: f32) -> Stroke {
        self.color.w = alpha;
        self
    }

    pub fn dashed(mut self, on: f32, off: f32) -> Stroke {
        self.dash = (on, off);
        self
    }

    /// Seen through everything.
    pub fn over(mut self) -> Stroke {
        self.depth = DepthTest::Always;
        self
    }

    /// Only where something hides it.
    pub fn behind(mut self) -> Stroke {
        self.depth = DepthTest::Greater;
        self
    }

    /// Only the arrow head at the end of each line.
    pub fn head(mut self, length: f32, width: f32) -> Stroke {
        self.head = length;
        self.width = (width, 0.5);
        self
    }
}

pub struct Brush {
    face: Program,
    line: Program,
    shadow: Program,
}

impl Brush {
    pub fn new(context: &Context) -> Result<Brush, CoreError> {
        let program = |vertex, fragment| Program::from_source(context, vertex, fragment);
        Ok(Brush {
            face: program(include_str!("shaders/face.vert"), include_str!("shaders/face.frag"))?,
            line: program(include_str!("shaders/line.vert"), include_str!("shaders/line.frag"))?,
            shadow: program(
                include_str!("shaders/shadow.vert"),
                include_str!("shaders/shadow.frag"),
            )?,
        })
    }

    pub fn faces(&self, frame: &Frame, faces: &Faces, model: Mat4, color: Vec3, fades: bool) {
        let states = RenderStates { depth_test: DepthTest::Less, ..RenderStates::default() };
        self.tinted(frame, faces, model, color.extend(1.0), fades, states);
    }

    /// As if of glass: what stands behind is seen through it.
    pub fn glass(&self, frame: &Frame, faces: &Faces, model: Mat4, color: Vec4) {
        self.tinted(frame, faces, model, color, false, OVER);
    }

    fn tinted(
        &self,
        frame: &Frame,
        faces: &Faces,
        model: Mat4,
        color: Vec4,
        fades: bool,
        states: RenderStates,
    ) {
        if faces.position.vertex_count() == 0 {
            return;
        }
        let p = &self.face;
        p.use_uniform("model", model);
        p.use_uniform("view_projection", frame.view_projection);
        p.use_uniform("color", color.truncate());
        p.use_uniform("alpha", color.w);
        p.use_uniform("light", frame.light);
        p.use_uniform("paper", frame.paper);
        p.use_uniform("fade", if fades { frame.fade } else { NO_FADE });
        p.use_vertex_attribute("position", &faces.position);
        p.use_vertex_attribute("normal", &faces.normal);
        p.draw_arrays(states, frame.viewport, faces.position.vertex_count());
    }

    pub fn lines(&self, frame: &Frame, lines: &Lines, model: Mat4, stroke: Stroke) {
        let count = lines.start.instance_count();
        if count == 0 {
            return;
        }
        let pixels = |(a, b): (f32, f32)| -> Vec2 { vec2(a, b) * frame.ratio };
        let p = &self.line;
        p.use_uniform("model", model);
        p.use_uniform("view_projection", frame.view_projection);
        let size = vec2(frame.viewport.width as f32, frame.viewport.height as f32);
        p.use_uniform("viewport", size);
        p.use_uniform("width", pixels(stroke.width));
        p.use_uniform("head", stroke.head * frame.ratio);
        p.use_uniform("towards", frame.pixel * stroke.width.0.max(1.0) * 1.2);
        p.use_uniform("depth_scale", frame.depth_scale);
        p.use_uniform("color", stroke.color);
        p.use_uniform("dash", pixels(stroke.dash));
        p.use_uniform("fade", if stroke.fades { frame.fade } else { NO_FADE });
        p.use_instance_attribute("start", &lines.start);
        p.use_instance_attribute("end", &lines.end);
        let states = RenderStates { depth_test: stroke.depth, ..OVER };
        p.draw_arrays_instanced(states, frame.viewport, 6, count);
    }

    /// A soft-edged dark patch on the bench. `area` is x0, y0, x1, y1 in millimetres.
    pub fn shadow(&self, frame: &Frame, area: Vec4, soft: f32, color: Vec4) {
        let p = &self.shadow;
        p.use_uniform("view_projection", frame.view_projection);
        p.use_uniform("area", area);
        p.use_uniform("soft", soft);
        p.use_uniform("color", color);
        let states = RenderStates { depth_test: DepthTest::LessOrEqual, ..OVER };
        p.draw_arrays(states, frame.viewport, 6);
    }
}

const NO_FADE: Vec4 = vec4(0.0, 0.0, 1e9, 2e9);

/// Blended over what is there, without hiding what comes later.
const OVER: RenderStates = RenderStates {
    write_mask: WriteMask::COLOR,
    depth_test: DepthTest::LessOrEqual,
    blend: Blend::TRANSPARENCY,
    cull: three_d::Cull::None,
};
