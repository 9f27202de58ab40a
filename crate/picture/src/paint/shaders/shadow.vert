uniform mat4 view_projection;
uniform vec4 area; // x0, y0, x1, y1 on the bench
uniform float soft;
out vec2 ground;

void main() {
    const vec2 corners[6] = vec2[6](vec2(0.0, 0.0), vec2(1.0, 0.0), vec2(1.0, 1.0),
                                    vec2(0.0, 0.0), vec2(1.0, 1.0), vec2(0.0, 1.0));
    ground = mix(area.xy - soft, area.zw + soft, corners[gl_VertexID]);
    gl_Position = view_projection * vec4(ground, 0.4, 1.0);
}
