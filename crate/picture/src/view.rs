//! What the page calls to show a plan on its canvas.
//!
//! The page owns the canvas, its size and all gestures; it calls [`View::draw`] when something
//! changed and never otherwise. When the graphics context is lost it drops the view and makes a
//! new one from the plan.

use std::sync::Arc;

use three_d::{Context, vec3};
use wasm_bindgen::JsError;
use wasm_bindgen::prelude::wasm_bindgen;
use web_sys::WebGl2RenderingContext;

use crate::camera::Camera;
use crate::cutaway::cutaway;
use crate::edges::millimetres;
use crate::labels::labels;
use crate::paint::{Painter, Sheet};
use crate::scene::{Glass, Manner, Model, Moment, Section};
use crate::theme::Theme;

/// The step of a view that was told none: no plan has so many.
const NOWHERE: usize = usize::MAX;

/// A plan in 3D.
#[wasm_bindgen]
pub struct View {
    canvas: WebGl2RenderingContext,
    painter: Painter,
    model: Model,
    camera: Camera,
    theme: Theme,
    reduced: bool,
    size: (u32, u32),
    ratio: f32,
    /// Place of the step shown, from 0, or [`NOWHERE`].
    step: usize,
    t: f32,
    moment: Option<Moment>,
    manner: Manner,
    /// Across which axis it is cut open, and at what share of its size.
    cut: Option<(usize, f32)>,
    /// What is drawn as if of glass in the step of that place.
    glass: Option<(usize, Glass)>,
}

fn said(error: &impl std::fmt::Display) -> JsError {
    JsError::new(&error.to_string())
}

#[wasm_bindgen]
impl View {
    /// Takes a plan to show on a canvas's WebGL2 context; what of it is said by [`View::show`] or
    /// [`View::finished`].
    ///
    /// # Errors
    /// When the plan cannot be read, or the context is lost or cannot hold the drawing.
    #[wasm_bindgen(constructor)]
    pub fn new(gl: WebGl2RenderingContext, plan_json: &str) -> Result<View, JsError> {
        let model = Model::read(plan_json).map_err(|e| said(&e))?;
        if gl.is_context_lost() {
            return Err(JsError::new("the graphics context is lost"));
        }
        let low = three_d::context::Context::from_webgl2_context(gl.clone());
        // The drawing library shares its context this way on every machine.
        #[allow(clippy::arc_with_non_send_sync)]
        let context = Context::from_gl_context(Arc::new(low)).map_err(|e| said(&e))?;
        let painter = Painter::new(context, &model).map_err(|e| said(&e))?;
        Ok(View {
            canvas: gl,
            painter,
            model,
            camera: Camera::new(),
            theme: Theme::new(false),
            reduced: false,
            size: (640, 480),
            ratio: 1.0,
            step: NOWHERE,
            t: 0.0,
            moment: None,
            manner: Manner::default(),
            cut: None,
            glass: None,
        })
    }

    /// Shows another plan, keeping the size, the colours and, as far as it has one, the step.
    ///
    /// # Errors
    /// When the plan cannot be read, or the context is lost; the one before stays.
    pub fn load(&mut self, plan_json: &str) -> Result<(), JsError> {
        let model = Model::read(plan_json).map_err(|e| said(&e))?;
        if self.canvas.is_context_lost() {
            return Err(JsError::new("the graphics context is lost"));
        }
        self.painter.load(&model);
        let whole = self.step == self.model.stations.len();
        self.model = model;
        self.glass = None;
        let steps = self.model.stations.len();
        if self.step == NOWHERE {
            return Ok(());
        }
        self.enter(if whole { steps } else { self.step.min(steps.saturating_sub(1)) });
        self.camera.arrive(1.0);
        Ok(())
    }

    /// The canvas in physical pixels, and physical pixels in a CSS pixel.
    pub fn resize(&mut self, width_px: u32, height_px: u32, pixel_ratio: f32) {
        self.size = (width_px.clamp(1, 16_384), height_px.clamp(1, 16_384));
        self.ratio = if pixel_ratio.is_finite() { pixel_ratio.clamp(0.25, 8.0) } else { 1.0 };
        self.camera.resize(self.size.0 as f32 / self.ratio, self.size.1 as f32 / self.ratio);
    }

    /// Light or dark, and whether motion is unwelcome: then the end of each step is shown, with
    /// the start as dashed edges and an arrow.
    pub fn theme(&mut self, dark: bool, reduced: bool) {
        self.theme = Theme::new(dark);
        self.reduced = reduced;
        self.pose();
    }

    /// The step to draw, from 1, and how far its motion is, from 0 to 1. A number that the plan
    /// does not have shows the nearest it has.
    pub fn show(&mut self, step: u32, t: f32) {
        let last = self.model.stations.len().saturating_sub(1);
        let place = (step.saturating_sub(1) as usize).min(last);
        self.t = if t.is_finite() { t.clamp(0.0, 1.0) } else { 1.0 };
        if place == self.step {
            self.pose();
        } else {
            self.enter(place);
        }
    }

    /// The whole piece standing, nothing in motion.
    pub fn finished(&mut self) {
        self.t = 1.0;
        if self.step != self.model.stations.len() {
            self.enter(self.model.stations.len());
        }
        self.camera.arrive(1.0);
    }

    /// Other ways to look: panels by their edges only; what comes next by its edges; pulled apart.
    pub fn look(&mut self, through: bool, next: bool, apart: bool) {
        let manner = Manner { through, next, apart, section: self.manner.section };
        if manner != self.manner {
            self.manner = manner;
            self.enter(self.step);
            self.camera.arrive(1.0);
        }
    }

    /// Cuts what the step shows open, across its width (0), depth (1) or height (2), at a share of that
    /// size from 0 to 1; any other axis closes it. A label says where.
    pub fn section(&mut self, axis: i32, share: f32) {
        self.cut = usize::try_from(axis).ok().filter(|a| *a < 3).map(|a| (a, share));
        self.cut_here();
        self.pose();
    }

    /// The face under a CSS pixel, as JSON: `{"id":"left-side","axis":0,"at":18000}`, the axis
    /// that it stands across and its place on it when the piece is together, in micrometres.
    pub fn touch(&self, x: f32, y: f32) -> Option<String> {
        let moment = self.moment.as_ref()?;
        let (eye, way) = self.camera.ray(x, y);
        let (index, axis, at) = moment.touch(&self.model, eye, way)?;
        let id = &self.model.parts.get(index)?.id;
        // Boxes came as whole micrometres; a single of some metres still holds them to half a one.
        let at = (f64::from(at) * 1000.0).round() as i64;
        serde_json::to_string(&serde_json::json!({ "id": id, "axis": axis, "at": at })).ok()
    }

    /// How far the eye is on its way from the step shown before, from 0 to 1. Returns whether it
    /// has a way to go: most steps are seen from where the one before was.
    pub fn arrive(&mut self, way: f32) -> bool {
        self.camera.arrive(way)
    }

    /// Walks round the piece by CSS pixels dragged.
    pub fn orbit(&mut self, dx: f32, dy: f32) {
        self.camera.orbit(dx, dy);
    }

    /// Shifts the picture by CSS pixels dragged.
    pub fn pan(&mut self, dx: f32, dy: f32) {
        self.camera.pan(dx, dy);
    }

    /// Magnifies by a factor; above 1 is nearer.
    pub fn zoom(&mut self, factor: f32) {
        self.camera.zoom(factor);
    }

    /// Back to the step's own view.
    pub fn home(&mut self) {
        self.camera.home();
    }

    /// Whether the step's own view is shown.
    pub fn is_home(&self) -> bool {
        self.camera.is_home()
    }

    /// Draws one frame. Does nothing while the context is lost.
    pub fn draw(&mut self) {
        if self.canvas.is_context_lost() {
            return;
        }
        self.open();
        let Some(moment) = &self.moment else { return };
        self.painter.draw(&Sheet {
            model: &self.model,
            step: self.step,
            moment,
            camera: &self.camera,
            theme: &self.theme,
            size: self.size,
            ratio: self.ratio,
        });
    }

    /// The words to lay over the picture, as JSON:
    /// `[{"kind":"part","text":"left side","x":120.5,"y":80.0}]`, in CSS pixels from the upper left.
    pub fn labels(&self) -> String {
        let all = self
            .moment
            .as_ref()
            .map(|moment| labels(&self.model, self.step, moment, &self.camera))
            .unwrap_or_default();
        serde_json::to_string(&all).unwrap_or_default()
    }

    /// Id of the part under a CSS pixel.
    pub fn pick(&self, x: f32, y: f32) -> Option<String> {
        let moment = self.moment.as_ref()?;
        let (eye, way) = self.camera.ray(x, y);
        moment
            .pick(&self.model, eye, way)
            .and_then(|i| self.model.parts.get(i))
            .map(|p| p.id.clone())
    }

    /// A point of the standing piece (micrometres) in CSS pixels: `[x, y]`.
    pub fn project(&self, x: f64, y: f64, z: f64) -> Vec<f32> {
        let Some(moment) = &self.moment else {
            return Vec::new();
        };
        let mm = |v: f64| millimetres(v as i64);
        let (x, y) = self.camera.project(moment.pose.point(vec3(mm(x), mm(y), mm(z))));
        vec![x, y]
    }

    /// The part's box on the screen as it is now: `[left, top, right, bottom]` in CSS pixels; empty
    /// when the part is not shown.
    pub fn part_pixels_box(&self, id: &str) -> Vec<f32> {
        let Some(moment) = &self.moment else {
            return Vec::new();
        };
        moment.pixels_box(&self.model, &self.camera, id).map(Vec::from).unwrap_or_default()
    }
}

impl View {
    fn enter(&mut self, step: usize) {
        self.step = step;
        self.cut_here();
        self.pose();
        let usual = Manner { section: None, ..self.manner } == Manner::default();
        let points = match &self.moment {
            Some(moment) if self.manner.apart => moment.corners(&self.model),
            Some(moment) if !usual => {
                let mut all = self.model.frame(step);
                all.extend(moment.corners(&self.model));
                all
            }
            _ => self.model.frame(step),
        };
        self.camera.frame(self.model.view(step), points);
    }

    /// Puts the section where it is in this step.
    fn cut_here(&mut self) {
        let through = |(axis, share)| Section::through(&self.model, self.step, axis, share);
        self.manner.section = self.cut.and_then(through);
    }

    fn pose(&mut self) {
        let moment = Moment::at(&self.model, self.step, self.t, self.reduced);
        self.moment = moment.map(|m| m.looked_at(&self.model, self.step, self.manner));
    }

    /// Opens what hides the step, which is looked for when the step is drawn for the first time.
    fn open(&mut self) {
        // Cut open, by its edges or pulled apart, what stood in front is away by itself.
        if self.manner.section.is_some() || self.manner.through || self.manner.apart {
            return;
        }
        if self.glass.as_ref().is_none_or(|(step, _)| *step != self.step) {
            self.glass = Some((self.step, cutaway(&self.model, self.step)));
        }
        if let (Some(moment), Some((_, glass))) = (self.moment.take(), &self.glass) {
            self.moment = Some(moment.opened(glass));
        }
    }
}
