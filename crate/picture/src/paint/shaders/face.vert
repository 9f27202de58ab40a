uniform mat4 model;
uniform mat4 view_projection;
in vec3 position;
in vec3 normal;
out vec3 facing;
out vec2 ground;

void main() {
    vec4 world = model * vec4(position, 1.0);
    facing = mat3(model) * normal;
    ground = world.xy;
    gl_Position = view_projection * world;
}
