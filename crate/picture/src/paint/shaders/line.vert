// One straight line as a strip of constant width on the screen, whatever its distance.
uniform mat4 model;
uniform mat4 view_projection;
uniform vec2 viewport; // pixels
uniform vec2 width;    // at the start and the end, pixels
uniform float head;    // above 0: only this many pixels before the end
uniform float towards; // millimetres nearer to the eye, to win against the faces it borders
uniform float depth_scale;
in vec3 start;
in vec3 end;
out vec2 place;
out float reach;
out vec2 ground;

void main() {
    vec4 wa = model * vec4(start, 1.0);
    vec4 wb = model * vec4(end, 1.0);
    vec4 a = view_projection * wa;
    vec4 b = view_projection * wb;
    float least = 1.0;
    if (a.w < least && b.w < least) {
        gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
        return;
    }
    if (a.w < least) { a = mix(a, b, (least - a.w) / (b.w - a.w)); }
    if (b.w < least) { b = mix(b, a, (least - b.w) / (a.w - b.w)); }
    float za = (a.z - depth_scale * towards / a.w) / a.w;
    float zb = (b.z - depth_scale * towards / b.w) / b.w;
    vec2 sa = a.xy / a.w * viewport * 0.5;
    vec2 sb = b.xy / b.w * viewport * 0.5;
    vec2 way = sb - sa;
    reach = length(way);
    vec2 along = reach > 1e-3 ? way / reach : vec2(1.0, 0.0);
    if (head > 0.0) {
        reach = min(head, reach);
        sa = sb - along * reach;
    }
    float pad = 0.5 * max(width.x, width.y) + 1.0;
    const vec2 corners[6] = vec2[6](vec2(0.0, -1.0), vec2(1.0, -1.0), vec2(1.0, 1.0),
                                    vec2(0.0, -1.0), vec2(1.0, 1.0), vec2(0.0, 1.0));
    vec2 corner = corners[gl_VertexID];
    place = vec2(mix(-pad, reach + pad, corner.x), corner.y * pad);
    vec2 pixel = sa + along * place.x + vec2(-along.y, along.x) * place.y;
    float share = reach > 1e-3 ? clamp(place.x / reach, 0.0, 1.0) : 0.0;
    ground = mix(wa.xy, wb.xy, share);
    gl_Position = vec4(pixel / (viewport * 0.5), mix(za, zb, share), 1.0);
}
