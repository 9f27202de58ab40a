// Matt: one light, no gloss, so that a face's tone tells only which way it looks.
uniform vec3 color;
uniform float alpha;
uniform vec3 light;
uniform vec3 paper;
uniform vec4 fade; // centre x, y; radius where fading starts, where it ends
in vec3 facing;
in vec2 ground;
layout (location = 0) out vec4 drawn;

void main() {
    float lit = 0.5 + 0.5 * dot(normalize(facing), light);
    vec3 tone = color * mix(0.73, 1.03, smoothstep(0.05, 0.95, lit));
    float far = smoothstep(fade.z, fade.w, length(ground - fade.xy));
    drawn = vec4(mix(min(tone, vec3(1.0)), paper, far), alpha);
}
