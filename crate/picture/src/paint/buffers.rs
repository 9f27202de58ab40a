//! What is kept on the graphics processor: faces as triangles, edges as pairs of ends.

use three_d::{Context, InstanceBuffer, Vec3, VertexBuffer};

use crate::edges::Skin;

/// Triangles with their normals.
pub struct Faces {
    pub position: VertexBuffer<Vec3>,
    pub normal: VertexBuffer<Vec3>,
}

/// Straight lines.
pub struct Lines {
    pub start: InstanceBuffer<Vec3>,
    pub end: InstanceBuffer<Vec3>,
}

/// Both, for one thing.
pub struct Body {
    pub faces: Faces,
    pub lines: Lines,
}

impl Lines {
    pub fn new(context: &Context, lines: &[[Vec3; 2]]) -> Lines {
        let ends = |i: usize| -> Vec<Vec3> { lines.iter().map(|l| l[i]).collect() };
        Lines {
            start: InstanceBuffer::new_with_data(context, &ends(0)),
            end: InstanceBuffer::new_with_data(context, &ends(1)),
        }
    }
}

impl Body {
    pub fn new(context: &Context, skin: &Skin) -> Body {
        Body {
            faces: Faces {
                position: VertexBuffer::new_with_data(context, &skin.positions),
                normal: VertexBuffer::new_with_data(context, &skin.normals),
            },
            lines: Lines::new(context, &skin.edges),
        }
    }

    /// Several things that never move apart, as one.
    pub fn merged<'a>(context: &Context, skins: impl Iterator<Item = &'a Skin>) -> Body {
        let mut all = Skin::default();
        for skin in skins {
            all.positions.extend(&skin.positions);
            all.normals.extend(&skin.normals);
            all.edges.extend(&skin.edges);
        }
        Body::new(context, &all)
    }
}
