//! From the picture's millimetres to the screen and back.
//!
//! A mild perspective: far enough off that upright edges stay upright to the eye, near enough that
//! a long panel still looks long. The step's own view fits everything that moves in it into the
//! frame exactly; the maker's orbit, pan and zoom come on top and are dropped by [`Camera::home`].

use three_d::{InnerSpace, Mat4, SquareMatrix, Vec3, Vec4, vec3, vec4};

use crate::scene::View;

/// Half the opening angle, as a tangent, of the longer side of the frame.
const OPENING: f32 = 0.15;
/// Part of the frame kept free on each side, for labels.
const MARGIN: f32 = 0.07;
/// CSS pixels kept free below, for the buttons that turn the picture and the name of the face down;
/// in a low frame no more than this share of it.
const BELOW: (f32, f32) = (66.0, 0.12);
/// Degrees turned by a pixel of dragging.
const DEGREES_PER_PIXEL: f32 = 0.35;

/// What the maker changed.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Change {
    view: Option<View>,
    zoom: f32,
    /// Shift of the picture, as a share of half the frame.
    pan: (f32, f32),
}

impl Change {
    const NONE: Change = Change { view: None, zoom: 1.0, pan: (0.0, 0.0) };
}

/// Where the eye is.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Place {
    view: View,
    /// What it looks about.
    centre: Vec3,
    /// The eye from the centre, along right, up and forward.
    stand: Vec3,
}

impl Place {
    /// From `self` (0) to `to` (1), the short way round.
    fn towards(&self, to: &Place, t: f32) -> Place {
        let turned = (to.view.yaw - self.view.yaw + 180.0).rem_euclid(360.0) - 180.0;
        Place {
            view: View {
                yaw: self.view.yaw + turned * t,
                pitch: self.view.pitch + (to.view.pitch - self.view.pitch) * t,
            },
            centre: self.centre + (to.centre - self.centre) * t,
            stand: self.stand + (to.stand - self.stand) * t,
        }
    }

    /// Whether a maker would hardly see the difference.
    fn is_near(&self, to: &Place) -> bool {
        let turned = (self.view.yaw - to.view.yaw).abs() + (self.view.pitch - to.view.pitch).abs();
        let moved = (self.centre - to.centre).magnitude() + (self.stand - to.stand).magnitude();
        turned < 0.5 && moved < 0.01 * to.stand.magnitude()
    }
}

/// The eye. Sizes of the screen in CSS pixels.
#[derive(Debug, Clone)]
pub struct Camera {
    width: f32,
    height: f32,
    own: View,
    points: Vec<Vec3>,
    change: Change,
    centre: Vec3,
    /// Radius of the points about the centre.
    radius: f32,
    /// The eye from the centre, along right, up and forward.
    stand: Vec3,
    /// Where it comes from, and how far on its way it is.
    from: Option<(Place, f32)>,
}

impl Camera {
    /// Before anything is shown.
    pub fn new() -> Camera {
        let mut camera = Camera {
            width: 640.0,
            height: 480.0,
            own: View::USUAL,
            points: Vec::new(),
            change: Change::NONE,
            centre: vec3(0., 0., 0.),
            radius: 1.0,
            stand: vec3(0., 0., -1000.0),
            from: None,
        };
        camera.frame(View::USUAL, vec![vec3(-200., -200., 0.), vec3(200., 200., 200.)]);
        camera.from = None;
        camera
    }

    /// The size of the canvas in CSS pixels.
    pub fn resize(&mut self, width: f32, height: f32) {
        self.width = if width.is_finite() { width.max(1.0) } else { 1.0 };
        self.height = if height.is_finite() { height.max(1.0) } else { 1.0 };
        self.from = None;
        self.fit();
    }

    /// Shows a step: its own direction and all points that belong in the frame. The eye sets out
    /// from where it is; [`Camera::arrive`] takes it there.
    pub fn frame(&mut self, own: View, points: Vec<Vec3>) {
        let here = self.place();
        self.own = own;
        self.points = points;
        self.fit();
        self.from = Some((here, 0.0));
    }

    /// How far the eye is on its way to the step's place, from 0 to 1. Returns whether it has a way
    /// to go.
    pub fn arrive(&mut self, way: f32) -> bool {
        let t = if way.is_finite() { way.clamp(0.0, 1.0) } else { 1.0 };
        let to = self.goal();
        self.from = self.from.filter(|(from, _)| t < 1.0 && !from.is_near(&to)).map(|f| (f.0, t));
        self.from.is_some()
    }

    fn goal(&self) -> Place {
        let view = self.change.view.unwrap_or(self.own);
        Place { view, centre: self.centre, stand: self.stand }
    }

    fn place(&self) -> Place {
        let to = self.goal();
        self.from.map_or(to, |(from, t)| from.towards(&to, t * t * (3.0 - 2.0 * t)))
    }

    /// The direction looked from now.
    pub fn view(&self) -> View {
        self.place().view
    }

    /// Walks round the piece by pixels dragged.
    pub fn orbit(&mut self, dx: f32, dy: f32) {
        if !(dx.is_finite() && dy.is_finite()) {
            return;
        }
        let now = self.view();
        self.from = None;
        self.change.view = Some(View {
            yaw: (now.yaw - dx * DEGREES_PER_PIXEL).rem_euclid(360.0),
            pitch: (now.pitch + dy * DEGREES_PER_PIXEL).clamp(2.0, 88.0),
        });
    }

    /// Shifts the picture by pixels dragged.
    pub fn pan(&mut self, dx: f32, dy: f32) {
        if !(dx.is_finite() && dy.is_finite()) {
            return;
        }
        let limit = 1.0 + self.change.zoom;
        self.change.pan.0 = (self.change.pan.0 + 2.0 * dx / self.width).clamp(-limit, limit);
        self.change.pan.1 = (self.change.pan.1 - 2.0 * dy / self.height).clamp(-limit, limit);
    }

    /// Magnifies; above 1 is nearer. About the middle of the frame.
    pub fn zoom(&mut self, factor: f32) {
        if !factor.is_finite() || factor <= 0.0 {
            return;
        }
        let zoom = (self.change.zoom * factor).clamp(0.3, 12.0);
        let grown = zoom / self.change.zoom;
        self.change.pan.0 *= grown;
        self.change.pan.1 *= grown;
        self.change.zoom = zoom;
    }

    /// Back to the step's own view.
    pub fn home(&mut self) {
        self.change = Change::NONE;
        self.from = None;
        self.fit();
    }

    /// Whether the step's own view is shown.
    pub fn is_home(&self) -> bool {
        self.change == Change::NONE
    }

    /// Right, up and forward of the eye.
    pub fn axes(&self) -> [Vec3; 3] {
        axes(self.view())
    }

    fn openings(&self) -> (f32, f32) {
        let longer = self.width.max(self.height);
        (OPENING * self.width / longer, OPENING * self.height / longer)
    }

    /// Puts the eye as near as it can be with every point inside the frame.
    fn fit(&mut self) {
        let Some(first) = self.points.first().copied() else {
            return;
        };
        let (mut low, mut high) = (first, first);
        for p in &self.points {
            for a in 0..3 {
                low[a] = low[a].min(p[a]);
                high[a] = high[a].max(p[a]);
            }
        }
        self.centre = (low + high) / 2.0;
        let far = self.points.iter().map(|p| (p - self.centre).magnitude()).fold(1.0, f32::max);
        self.radius = far;
        let [right, up, forward] = axes(self.change.view.unwrap_or(self.own));
        let (tx, ty) = self.openings();
        let below = (BELOW.0 / self.height).clamp(MARGIN, BELOW.1);
        let tx = tx * (1.0 - 2.0 * MARGIN);
        let (above, below) = (ty * (1.0 - 2.0 * MARGIN), ty * (1.0 - 2.0 * below));
        // Each side of the frame is a plane through the eye; the farthest-out point on each side
        // says where that plane must be, and two opposite planes together where the eye is.
        let mut out = [f32::NEG_INFINITY; 4];
        for p in &self.points {
            let d = p - self.centre;
            let (x, y, z) = (d.dot(right), d.dot(up), d.dot(forward));
            let sides = [x - tx * z, -x - tx * z, y - above * z, -y - below * z];
            for (most, side) in out.iter_mut().zip(sides) {
                *most = most.max(side);
            }
        }
        let [r, l, t, b] = out;
        let back = (-(r + l) / (2.0 * tx)).min(-(t + b) / (above + below)).min(-far * 1.2);
        self.stand = vec3((r - l) / 2.0, (t - b + (above - below) * back) / 2.0, back);
    }

    /// Where the eye is.
    pub fn eye(&self) -> Vec3 {
        let Place { view, centre, stand } = self.place();
        let [right, up, forward] = axes(view);
        centre + right * stand.x + up * stand.y + forward * stand.z
    }

    /// Nearest and farthest distance drawn.
    pub fn depths(&self) -> (f32, f32) {
        let away = -self.place().stand.z;
        ((away - self.radius * 2.0).max(away * 0.05), away + self.radius * 2.0 + 6000.0)
    }

    /// Radius of what the step shows, and its middle.
    pub fn subject(&self) -> (Vec3, f32) {
        (self.place().centre, self.radius)
    }

    /// From the picture to clip space.
    pub fn matrix(&self) -> Mat4 {
        let [right, up, forward] = self.axes();
        let eye = self.eye();
        let (tx, ty) = self.openings();
        let (sx, sy) = (self.change.zoom / tx, self.change.zoom / ty);
        let (px, py) = self.change.pan;
        let (near, far) = self.depths();
        let (a, b) = ((far + near) / (far - near), -2.0 * far * near / (far - near));
        let row = |v: Vec3, s: f32| vec4(v.x, v.y, v.z, -v.dot(eye)) * s;
        let w = row(forward, 1.0);
        let x = row(right, sx) + w * px;
        let y = row(up, sy) + w * py;
        let z = w * a + vec4(0., 0., 0., b);
        Mat4::from_cols(
            vec4(x.x, y.x, z.x, w.x),
            vec4(x.y, y.y, z.y, w.y),
            vec4(x.z, y.z, z.z, w.z),
            vec4(x.w, y.w, z.w, w.w),
        )
    }

    /// A point of the picture in CSS pixels from the upper left corner.
    pub fn project(&self, p: Vec3) -> (f32, f32) {
        let c: Vec4 = self.matrix() * vec4(p.x, p.y, p.z, 1.0);
        let w = if c.w.abs() < 1e-6 { 1e-6 } else { c.w };
        ((c.x / w + 1.0) * 0.5 * self.width, (1.0 - c.y / w) * 0.5 * self.height)
    }

    /// The ray under a CSS pixel: its start and its way.
    pub fn ray(&self, x: f32, y: f32) -> (Vec3, Vec3) {
        let [right, up, forward] = self.axes();
        let (tx, ty) = self.openings();
        let nx = 2.0 * x / self.width - 1.0 - self.change.pan.0;
        let ny = 1.0 - 2.0 * y / self.height - self.change.pan.1;
        let zoom = self.change.zoom;
        let way = forward + right * (nx * tx / zoom) + up * (ny * ty / zoom);
        (self.eye(), way.normalize())
    }

    /// Millimetres under one CSS pixel at the middle of the piece.
    pub fn millimetres_per_pixel(&self) -> f32 {
        let (tx, _) = self.openings();
        2.0 * tx * -self.place().stand.z / (self.change.zoom * self.width)
    }

    /// The frame in CSS pixels.
    pub fn size(&self) -> (f32, f32) {
        (self.width, self.height)
    }

    /// The identity, for what is already in the picture's millimetres.
    pub fn unmoved() -> Mat4 {
        Mat4::identity()
    }
}

/// Right, up and forward of an eye.
fn axes(view: View) -> [Vec3; 3] {
    let forward = -view.towards_eye();
    let right = forward.cross(vec3(0., 0., 1.)).normalize();
    [right, right.cross(forward), forward]
}

impl Default for Camera {
    fn default() -> Self {
        Camera::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points() -> Vec<Vec3> {
        vec![vec3(-300., -250., 0.), vec3(300., 280., 20.), vec3(10., 40., 700.)]
    }

    #[test]
    fn every_point_is_in_the_frame_and_two_touch_its_sides() {
        for (w, h) in [(680.0, 640.0), (390.0, 400.0), (300.0, 900.0), (1200.0, 300.0)] {
            for yaw in [0.0, 33.0, -62.0, 147.0] {
                let mut camera = Camera::new();
                camera.resize(w, h);
                camera.frame(View { yaw, pitch: 27.0 }, points());
                camera.arrive(1.0);
                let mut spread = (0.0_f32, 0.0_f32);
                for p in points() {
                    let (x, y) = camera.project(p);
                    let (u, v) = ((2.0 * x / w - 1.0).abs(), (2.0 * y / h - 1.0).abs());
                    assert!(u < 0.865 && v < 0.865, "{w}x{h} {yaw}: {u} {v}");
                    spread = (spread.0.max(u), spread.1.max(v));
                }
                assert!(spread.0.max(spread.1) > 0.80, "{w}x{h} {yaw}: {spread:?}");
            }
        }
    }

    #[test]
    fn the_ray_under_a_projected_point_goes_through_it() {
        let mut camera = Camera::new();
        camera.resize(680.0, 640.0);
        camera.frame(View::USUAL, points());
        camera.arrive(1.0);
        camera.orbit(40.0, -25.0);
        camera.pan(30.0, 11.0);
        camera.zoom(1.7);
        for p in points() {
            let (x, y) = camera.project(p);
            let (eye, way) = camera.ray(x, y);
            let off = (p - eye).cross(way).magnitude();
            assert!(off < 0.5, "{off}");
        }
    }

    #[test]
    fn home_undoes_everything() {
        let mut camera = Camera::new();
        camera.frame(View::USUAL, points());
        camera.arrive(1.0);
        let before = camera.matrix();
        camera.orbit(10.0, 5.0);
        camera.zoom(2.0);
        camera.pan(5.0, 5.0);
        assert!(!camera.is_home());
        camera.orbit(f32::NAN, 0.0);
        camera.zoom(-1.0);
        camera.home();
        assert!(camera.is_home());
        assert_eq!(camera.matrix(), before);
    }

    #[test]
    fn the_eye_goes_from_the_place_before_to_the_new_one_the_short_way() {
        let mut camera = Camera::new();
        camera.frame(View { yaw: 170.0, pitch: 27.0 }, points());
        camera.arrive(1.0);
        let before = camera.eye();
        camera.frame(View { yaw: -170.0, pitch: 50.0 }, points());
        assert!(camera.arrive(0.0));
        assert!((camera.eye() - before).magnitude() < 1.0);
        assert!(camera.arrive(0.5));
        assert!((camera.view().yaw - 180.0).abs() < 1e-3, "{}", camera.view().yaw);
        assert!(!camera.arrive(1.0));
        assert_eq!(camera.view(), View { yaw: -170.0, pitch: 50.0 });
        camera.frame(View { yaw: -170.0, pitch: 50.0 }, points());
        assert!(!camera.arrive(0.0), "there is no way to go");
    }

    #[test]
    fn up_is_up_and_right_is_right_on_the_screen() {
        let mut camera = Camera::new();
        camera.frame(View::USUAL, points());
        camera.arrive(1.0);
        let (x0, y0) = camera.project(vec3(0., 0., 0.));
        let (x1, _) = camera.project(vec3(100., 0., 0.));
        let (_, y1) = camera.project(vec3(0., 0., 100.));
        assert!(x1 > x0 && y1 < y0);
    }
}
