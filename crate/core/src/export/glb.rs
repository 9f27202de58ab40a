//! The build as a model: a binary glTF 2.0 file (ISO/IEC 12113:2022) with each part as a named
//! node and each step as an animation.
//!
//! glTF counts in metres, with Y up and Z towards the viewer: x, y, z of the standing piece become
//! X, -Z, Y. A part that is not there yet has the scale zero, which glTF gives as the way to hide
//! what is animated. Sizes, masses and the steps' sentences are in `extras`.

use std::collections::BTreeMap;

use crate::geometry::{Box3, Direction, Point};
use crate::plan::{Action, Plan, PlanPart, Step};

use super::single::{decimal, metres};

/// How far from its place a part starts.
const APART: i64 = 300_000;
/// √½ and 1 as single-precision numbers.
const HALF_TURN: u32 = 0x3f35_04f3;
const ONE: u32 = 0x3f80_0000;
const SIGN: u32 = 1 << 31;

/// Kinds of numbers in glTF's code.
const FLOAT: u32 = 5126;
const INDEX: u32 = 5125;

/// The whole file.
pub fn glb(plan: &Plan) -> Vec<u8> {
    let mut out = Writer::default();
    let json = document(plan, &mut out);
    pack(json.into_bytes(), out.bytes)
}

/// Header and the two chunks, each filled up to a multiple of four.
fn pack(mut json: Vec<u8>, mut bytes: Vec<u8>) -> Vec<u8> {
    json.resize(json.len().next_multiple_of(4), b' ');
    bytes.resize(bytes.len().next_multiple_of(4), 0);
    let word = |n: usize| u32::try_from(n).unwrap_or(u32::MAX).to_le_bytes();
    let mut file = b"glTF".to_vec();
    file.extend(2_u32.to_le_bytes());
    file.extend(word(12 + 8 + json.len() + 8 + bytes.len()));
    for (kind, chunk) in [(b"JSON", json), (b"BIN\0", bytes)] {
        file.extend(word(chunk.len()));
        file.extend(kind);
        file.extend(chunk);
    }
    file
}

/// Gathers the binary part and what describes it.
#[derive(Default)]
struct Writer {
    bytes: Vec<u8>,
    views: Vec<String>,
    accessors: Vec<String>,
    /// Numbers that are there already, with their accessor.
    known: BTreeMap<(&'static str, Vec<u32>), usize>,
}

impl Writer {
    /// Adds numbers and returns their accessor. `target` says what a mesh uses them for.
    fn put(
        &mut self,
        words: &[u32],
        of: u32,
        kind: &str,
        each: usize,
        target: &str,
        range: &str,
    ) -> usize {
        let from = self.bytes.len();
        self.bytes.extend(words.iter().flat_map(|w| w.to_le_bytes()));
        let size = self.bytes.len() - from;
        self.views
            .push(format!(r#"{{"buffer":0,"byteOffset":{from},"byteLength":{size}{target}}}"#));
        let (view, count) = (self.views.len() - 1, words.len() / each);
        self.accessors.push(format!(
            r#"{{"bufferView":{view},"componentType":{of},"count":{count},"type":"{kind}"{range}}}"#
        ));
        self.accessors.len() - 1
    }

    /// Key values of an animation, the same ones once.
    fn keys(&mut self, kind: &'static str, each: usize, words: Vec<u32>) -> usize {
        if let Some(&found) = self.known.get(&(kind, words.clone())) {
            return found;
        }
        let made = self.put(&words, FLOAT, kind, each, "", "");
        self.known.insert((kind, words), made);
        made
    }
}

/// A point of the standing piece in glTF's axes.
fn turned([x, y, z]: Point) -> Point {
    [x, z, y.saturating_neg()]
}

fn quoted(text: &str) -> String {
    serde_json::to_string(text).unwrap_or_default()
}

fn list(items: &[String]) -> String {
    items.join(",")
}

fn numbers(p: Point) -> String {
    list(&p.map(decimal))
}

/// Corner of a part that its node stands at.
fn origin(part: &PlanPart) -> Point {
    part.boxes.iter().fold([i64::MAX; 3], |low, b| {
        let [a, b] = [turned(b.min), turned(b.max)];
        [0, 1, 2].map(|i| low[i].min(a[i]).min(b[i]))
    })
}

fn document(plan: &Plan, out: &mut Writer) -> String {
    // What has no solid cannot be shown.
    let parts: Vec<&PlanPart> = plan.parts.iter().filter(|p| !p.boxes.is_empty()).collect();
    let mut materials: Vec<&str> = Vec::new();
    let (mut nodes, mut meshes) = (Vec::new(), Vec::new());
    for part in &parts {
        let material = materials.iter().position(|m| *m == part.material).unwrap_or_else(|| {
            materials.push(&part.material);
            materials.len() - 1
        });
        meshes.push(mesh(part, material, out));
        nodes.push(format!(
            r#"{{"name":{},"mesh":{},"translation":[{}],"extras":{}}}"#,
            quoted(&part.name),
            meshes.len() - 1,
            numbers(origin(part)),
            extras(part)
        ));
    }
    let children: Vec<String> = (0..parts.len()).map(|i| i.to_string()).collect();
    let root = nodes.len();
    let within = if children.is_empty() {
        String::new()
    } else {
        format!(r#","children":[{}]"#, list(&children))
    };
    nodes.push(format!(r#"{{"name":{}{within}}}"#, quoted(&plan.title)));
    let animations = animations(plan, &parts, root, out);
    let looks: Vec<String> = materials.iter().enumerate().map(|(i, m)| look(plan, m, i)).collect();
    let mut members = vec![
        r#""asset":{"version":"2.0","generator":"jointwise"}"#.to_owned(),
        r#""scene":0"#.to_owned(),
        format!(r#""scenes":[{{"nodes":[{root}],"extras":{{"plan":{}}}}}]"#, quoted(&plan.format)),
        format!(r#""nodes":[{}]"#, list(&nodes)),
    ];
    // None of these may be there and empty.
    for (name, all) in [
        ("meshes", &meshes),
        ("materials", &looks),
        ("animations", &animations),
        ("accessors", &out.accessors),
        ("bufferViews", &out.views),
    ] {
        if !all.is_empty() {
            members.push(format!(r#""{name}":[{}]"#, list(all)));
        }
    }
    if !out.bytes.is_empty() {
        members.push(format!(r#""buffers":[{{"byteLength":{}}}]"#, out.bytes.len()));
    }
    format!("{{{}}}", list(&members))
}

fn extras(part: &PlanPart) -> String {
    format!(
        r#"{{"id":{},"body":{},"material":{},"length_um":{},"width_um":{},"thickness_um":{},"mass_g":{}}}"#,
        quoted(&part.id),
        quoted(&part.group),
        quoted(&part.material_name),
        part.length,
        part.width,
        part.thickness,
        part.mass_g
    )
}

/// Tones of the materials, in turn.
const TONES: [&str; 4] = ["0.75,0.48,0.18", "0.56,0.36,0.16", "0.8,0.66,0.42", "0.42,0.3,0.18"];

fn look(plan: &Plan, material: &str, i: usize) -> String {
    let of = plan.parts.iter().find(|p| p.material == material);
    let bought = of.is_some_and(|p| p.kind == crate::assembly::Kind::Hardware);
    let tone = if bought { "0.4,0.42,0.45" } else { TONES[i % TONES.len()] };
    let metal = if bought { "0.6" } else { "0" };
    format!(
        r#"{{"name":{},"pbrMetallicRoughness":{{"baseColorFactor":[{tone},1],"metallicFactor":{metal},"roughnessFactor":0.8}}}}"#,
        quoted(of.map_or(material, |p| p.material_name.as_str()))
    )
}

/// Six faces a box, four corners each, seen from outside against the clock.
fn mesh(part: &PlanPart, material: usize, out: &mut Writer) -> String {
    let from = origin(part);
    let (mut places, mut normals, mut indices) = (Vec::new(), Vec::new(), Vec::new());
    let mut high = [0_i64; 3];
    for b in &part.boxes {
        let [p, q] = [turned(b.min), turned(b.max)];
        let low = [0, 1, 2].map(|i| p[i].min(q[i]).saturating_sub(from[i]));
        let top = [0, 1, 2].map(|i| p[i].max(q[i]).saturating_sub(from[i]));
        high = [0, 1, 2].map(|i| high[i].max(top[i]));
        for side in Direction::ALL {
            let first = u32::try_from(places.len() / 3).unwrap_or(u32::MAX);
            let axis = side.axis();
            let (u, v) = ((axis + 1) % 3, (axis + 2) % 3);
            let level = Box3::new(low, top).face(side);
            let around = [[low[u], low[v]], [top[u], low[v]], [top[u], top[v]], [low[u], top[v]]];
            for [at_u, at_v] in around {
                let mut corner = [0; 3];
                (corner[axis], corner[u], corner[v]) = (level, at_u, at_v);
                places.extend(corner.map(metres));
                let mut normal = [0_u32; 3];
                normal[axis] = if side.is_positive() { ONE } else { ONE | SIGN };
                normals.extend(normal);
            }
            let fan = if side.is_positive() { [0, 1, 2, 0, 2, 3] } else { [0, 2, 1, 0, 3, 2] };
            indices.extend(fan.map(|i| first + i));
        }
    }
    let range = format!(r#","min":[0,0,0],"max":[{}]"#, numbers(high));
    let place = out.put(&places, FLOAT, "VEC3", 3, r#","target":34962"#, &range);
    let normal = out.put(&normals, FLOAT, "VEC3", 3, r#","target":34962"#, "");
    let index = out.put(&indices, INDEX, "SCALAR", 1, r#","target":34963"#, "");
    format!(
        r#"{{"name":{},"primitives":[{{"attributes":{{"POSITION":{place},"NORMAL":{normal}}},"indices":{index},"material":{material}}}]}}"#,
        quoted(&part.id)
    )
}

/// How the piece is turned so that `face` lies on the bench, as a quaternion x, y, z, w in glTF's
/// axes: the turns of [`super::pose`], whose y is -Z here.
fn rotation(face: Direction) -> [u32; 4] {
    match face {
        Direction::Down => [0, 0, 0, ONE],
        Direction::Up => [ONE, 0, 0, 0],
        Direction::Back => [HALF_TURN | SIGN, 0, 0, HALF_TURN],
        Direction::Front => [HALF_TURN, 0, 0, HALF_TURN],
        Direction::Left => [0, 0, HALF_TURN, HALF_TURN],
        Direction::Right => [0, 0, HALF_TURN | SIGN, HALF_TURN],
    }
}

fn animations(plan: &Plan, parts: &[&PlanPart], root: usize, out: &mut Writer) -> Vec<String> {
    if parts.is_empty() || plan.steps.is_empty() {
        return Vec::new();
    }
    let still = out.put(&[0], FLOAT, "SCALAR", 1, "", r#","min":[0],"max":[0]"#);
    let moving = out.put(&[0, ONE], FLOAT, "SCALAR", 1, "", r#","min":[0],"max":[1]"#);
    let mut bodies: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    let mut faces: BTreeMap<&str, Direction> = BTreeMap::new();
    let mut all = Vec::new();
    for step in &plan.steps {
        let mut new: Vec<&str> = step.parts.iter().map(String::as_str).collect();
        new.extend(step.joins.as_deref().and_then(|id| bodies.remove(id)).unwrap_or_default());
        let body = bodies.entry(&step.body).or_default();
        body.extend(&new);
        let mut made = Channels::default();
        for (i, part) in parts.iter().enumerate() {
            let there = body.contains(&part.id.as_str());
            let scale = out.keys("VEC3", 3, vec![if there { ONE } else { 0 }; 3]);
            made.add(i, "scale", still, scale, "STEP");
            let Some(way) = step.direction.filter(|_| new.contains(&part.id.as_str())) else {
                continue;
            };
            let end = origin(part);
            let mut back = [0; 3];
            back[way.axis()] = -way.sign() * APART;
            let back = turned(back);
            let start = [0, 1, 2].map(|i| end[i].saturating_add(back[i]));
            let keys = start.into_iter().chain(end).map(metres).collect();
            made.add(i, "translation", moving, out.keys("VEC3", 3, keys), "LINEAR");
        }
        let before = faces.insert(&step.body, step.bench_face).unwrap_or(step.bench_face);
        let turn: Vec<u32> =
            rotation(before).into_iter().chain(rotation(step.bench_face)).collect();
        made.add(root, "rotation", moving, out.keys("VEC4", 4, turn), "LINEAR");
        all.push(format!(
            r#"{{"name":{},"channels":[{}],"samplers":[{}],"extras":{}}}"#,
            quoted(&format!("{} {}", step.n, step.text)),
            list(&made.channels),
            list(&made.samplers),
            facts(step)
        ));
    }
    all
}

/// What moves in an animation, and by which keys.
#[derive(Default)]
struct Channels {
    channels: Vec<String>,
    samplers: Vec<String>,
    known: BTreeMap<(usize, usize), usize>,
}

impl Channels {
    fn add(&mut self, node: usize, path: &str, input: usize, output: usize, how: &str) {
        let next = self.samplers.len();
        let sampler = *self.known.entry((input, output)).or_insert(next);
        if sampler == next {
            self.samplers
                .push(format!(r#"{{"input":{input},"output":{output},"interpolation":"{how}"}}"#));
        }
        self.channels
            .push(format!(r#"{{"sampler":{sampler},"target":{{"node":{node},"path":"{path}"}}}}"#));
    }
}

fn facts(step: &Step) -> String {
    let parts: Vec<String> = step.parts.iter().map(|id| quoted(id)).collect();
    let action = serde_json::to_string(&step.action).unwrap_or_default();
    let turned = step.action == Action::Turn;
    format!(
        r#"{{"step":{},"action":{action},"text":{},"bench_face":"{}","turn":{turned},"parts":[{}],"screws":{},"people":{},"minutes":{}}}"#,
        step.n,
        quoted(&step.text),
        step.bench_face.code(),
        list(&parts),
        step.fasteners.len(),
        step.people,
        step.minutes
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::export::sample;

    /// The two chunks of a file.
    fn read(file: &[u8]) -> (serde_json::Value, Vec<u8>) {
        let word = |at: usize| u32::from_le_bytes(file[at..at + 4].try_into().unwrap()) as usize;
        assert_eq!((&file[..4], word(4), word(8)), (b"glTF".as_slice(), 2, file.len()));
        let json = word(12);
        let value = serde_json::from_slice(&file[20..20 + json]).unwrap();
        (value, file[20 + json + 8..].to_vec())
    }

    #[test]
    fn every_part_is_a_named_node_of_its_size() {
        let plan = sample::plan();
        let (json, _) = read(&glb(&plan));
        for (i, part) in plan.parts.iter().enumerate() {
            let node = &json["nodes"][i];
            assert_eq!(node["name"], part.name);
            assert_eq!(node["extras"]["length_um"], part.length);
            let mesh = &json["meshes"][node["mesh"].as_u64().unwrap() as usize];
            let place = mesh["primitives"][0]["attributes"]["POSITION"].as_u64().unwrap();
            let most = &json["accessors"][place as usize]["max"];
            let mut sizes: Vec<i64> =
                (0..3).map(|k| (most[k].as_f64().unwrap() * 1e6).round() as i64).collect();
            sizes.sort_unstable();
            assert_eq!(sizes, [part.thickness, part.width, part.length]);
        }
    }

    #[test]
    fn every_step_is_an_animation_that_ends_in_place() {
        let plan = sample::plan();
        let (json, bytes) = read(&glb(&plan));
        let all = json["animations"].as_array().unwrap();
        assert_eq!(all.len(), plan.steps.len());
        let single = |at: usize| f32::from_le_bytes(bytes[at..at + 4].try_into().unwrap());
        let mut moves = 0;
        for (animation, step) in all.iter().zip(&plan.steps) {
            assert_eq!(animation["extras"]["text"], step.text);
            for channel in animation["channels"].as_array().unwrap() {
                if channel["target"]["path"] != "translation" {
                    continue;
                }
                moves += 1;
                let node = &json["nodes"][channel["target"]["node"].as_u64().unwrap() as usize];
                let sampler = &animation["samplers"][channel["sampler"].as_u64().unwrap() as usize];
                let keys = &json["accessors"][sampler["output"].as_u64().unwrap() as usize];
                let view = &json["bufferViews"][keys["bufferView"].as_u64().unwrap() as usize];
                let from = view["byteOffset"].as_u64().unwrap() as usize;
                let mut apart = 0.0_f64;
                for k in 0..3 {
                    let (start, end) = (single(from + 4 * k), single(from + 12 + 4 * k));
                    assert!(
                        (f64::from(end) - node["translation"][k].as_f64().unwrap()).abs() < 1e-6
                    );
                    apart += f64::from((end - start).abs());
                }
                assert!((apart - 0.3).abs() < 1e-6, "{apart}");
            }
        }
        let placed: usize =
            plan.steps.iter().filter(|s| s.direction.is_some()).map(|s| s.parts.len()).sum();
        assert!(moves > placed, "a body that joins moves with all its parts");
    }

    #[test]
    fn a_quaternion_turns_the_face_down() {
        // The vector part of q v q*, for a unit quaternion.
        let turn = |[x, y, z, w]: [f32; 4], v: [f32; 3]| {
            let u = [x, y, z];
            let cross = |a: [f32; 3], b: [f32; 3]| {
                [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
            };
            let t = cross(u, v).map(|c| 2.0 * c);
            let s = cross(u, t);
            [0, 1, 2].map(|i| v[i] + w * t[i] + s[i])
        };
        for face in Direction::ALL {
            let mut p = [0; 3];
            p[face.axis()] = face.sign();
            let v = turned(p).map(|c| c as f32);
            let [x, y, z] = turn(rotation(face).map(f32::from_bits), v);
            assert!((y + 1.0).abs() < 1e-6 && x.abs() + z.abs() < 1e-6, "{face:?}: {x} {y} {z}");
            // And the rest as the drawings do, not only the face.
            for d in Direction::ALL {
                let mut p = [0; 3];
                p[d.axis()] = d.sign();
                let pose = super::super::pose::Pose::on_bench(face);
                let wanted = turned(pose.point(p).map(|c| i64::try_from(c).unwrap()));
                let is = turn(rotation(face).map(f32::from_bits), turned(p).map(|c| c as f32));
                for k in 0..3 {
                    assert!((is[k] - wanted[k] as f32).abs() < 1e-6, "{face:?} {d:?}");
                }
            }
        }
    }

    #[test]
    fn odd_plans_still_make_a_file() {
        let mut plan = sample::plan();
        plan.parts[0].boxes = vec![Box3::new([i64::MIN; 3], [i64::MAX; 3])];
        plan.parts[1].boxes.clear();
        plan.title = "\"\u{1}".to_owned();
        read(&glb(&plan));
        plan.parts.clear();
        let (json, _) = read(&glb(&plan));
        assert!(json.get("meshes").is_none() && json.get("buffers").is_none());
    }
}
