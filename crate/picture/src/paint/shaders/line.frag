uniform vec4 color;
uniform vec2 width;
uniform vec2 dash; // on, off in pixels; on 0: unbroken
uniform vec4 fade;
uniform float head;
in vec2 place;
in float reach;
in vec2 ground;
layout (location = 0) out vec4 drawn;

void main() {
    float along = clamp(place.x, 0.0, reach);
    float wide = mix(width.x, width.y, reach > 0.0 ? along / reach : 0.0);
    float off = length(place - vec2(along, 0.0));
    float cover = clamp(wide * 0.5 + 0.5 - off, 0.0, 1.0) * min(wide + 0.2, 1.0);
    if (head > 0.0 && place.x < 0.0) { discard; } // an arrow head has no round end
    if (dash.x > 0.0 && mod(place.x, dash.x + dash.y) > dash.x) { discard; }
    cover *= 1.0 - smoothstep(fade.z, fade.w, length(ground - fade.xy));
    if (cover < 0.004) { discard; }
    drawn = vec4(color.rgb, color.a * cover);
}
