uniform vec4 area;
uniform float soft;
uniform vec4 color;
in vec2 ground;
layout (location = 0) out vec4 drawn;

void main() {
    vec2 rise = smoothstep(area.xy - soft, area.xy + soft, ground);
    vec2 fall = 1.0 - smoothstep(area.zw - soft, area.zw + soft, ground);
    drawn = vec4(color.rgb, color.a * rise.x * rise.y * fall.x * fall.y);
}
