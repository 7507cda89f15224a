/** The shaders: a plan over a grid of codes, and the laying of the result on the canvas. */
import { MIN_D, MIN_H, MAX_H } from "../../extension/engine/film/look-steps.ts";
import { MID_GREY } from "../../extension/engine/colour/density.ts";
import { CODE_DENSITY, CODE_STEP } from "../../extension/engine/plan/log-code.ts";
import { PROOF_SIDE } from "../../extension/engine/colour/proof-table.ts";
import { BREADTH, CLIPPING, LEVEL, LINES, PERIOD } from "./clipping.ts";
import { GAMUT_LIMIT } from "./proof.ts";
import { FILM_SAMPLES, FILM_STEPS, PRINT_SAMPLES, PRINT_STEPS } from "../../extension/engine/plan/table-axes.ts";

/** Width of the textures that hold tables, a power of two; every WebGL2 has at least this. */
export const TABLE_WIDTH = 2048;

const float = (v: number): string => (Number.isInteger(v) ? `${v}.0` : v.toPrecision(17));

/** A line of the hatching, in GLSL: its grey, or less than nothing where the kind has no such line. */
const line = (grey: number | undefined): string => (grey === undefined ? "-1.0" : float(grey / 255));
const lines = (way: "rising" | "falling"): string =>
  `(kind == ${CLIPPING.white} ? ${line(LINES[1][way])} : kind == ${CLIPPING.black} ? ${line(LINES[2][way])} : ${line(LINES[3][way])})`;

const SHIFT = 23 - Math.log2(PRINT_STEPS);
const MIN_H_BITS = new Int32Array(Float32Array.of(MIN_H).buffer)[0];

/** One triangle that covers everything. */
export const COVER = `#version 300 es
void main() {
  vec2 p = vec2(gl_VertexID == 1 ? 3.0 : -1.0, gl_VertexID == 2 ? 3.0 : -1.0);
  gl_Position = vec4(p, 0.0, 1.0);
}`;

/**
 * Steps and limits as in engine/plan/run.ts. Tables hold each value beside its successor, so that one fetch gives a segment.
 * The fourth channel marks pixels, so that what lays the result on the canvas can hatch them: 1 − 16/255 · (kind of clipping
 * + 8 for the holder).
 */
export const PLAN = `#version 300 es
precision highp float;
precision highp int;
precision highp usampler2D;
precision highp usampler3D;
uniform usampler2D codes;
uniform usampler2D lost;
uniform sampler2D film;
uniform sampler2D print;
uniform mat3 unmix;
uniform vec3 offset;
uniform mat3 colour;
uniform vec3 weights;
uniform bool mono;
uniform bool tinted;
uniform bool warn;
uniform float holder;
uniform float reach;
uniform float black;
uniform float white;
uniform bool areas;
uniform sampler2D nodes;
uniform vec4 toNodes;
uniform ivec2 lastNode;
uniform bool proofs;
uniform usampler3D paper;
out vec4 result;

vec2 segment(sampler2D table, int i) {
  return texelFetch(table, ivec2(i & ${TABLE_WIDTH - 1}, i >> ${Math.log2(TABLE_WIDTH)}), 0).rg;
}
float exposure(int channel, float density) {
  float x = clamp((density - (${float(MIN_D)})) * ${float(FILM_STEPS)}, 0.0, ${float(FILM_SAMPLES - 1.001)});
  int i = int(x);
  vec2 s = segment(film, channel * ${FILM_SAMPLES} + i);
  return mix(s.x, s.y, x - float(i));
}
float printed(int channel, float h) {
  int bits = floatBitsToInt(clamp(h, ${float(MIN_H)}, ${float(MAX_H)}));
  vec2 s = segment(print, (tinted ? channel * ${PRINT_SAMPLES} : 0) + ((bits - ${MIN_H_BITS}) >> ${SHIFT}));
  return mix(s.x, s.y, float(bits & ${2 ** SHIFT - 1}) / ${float(2 ** SHIFT)});
}
// Adjustments of local exposure, as engine/local/grid.ts lays them out: density and light's factor, and contrast's.
vec4 addition;
float spreading;
void readNodes() {
  addition = vec4(0.0, 0.0, 0.0, 1.0);
  spreading = 1.0;
  if (!areas) return;
  vec2 at = clamp(gl_FragCoord.xy * toNodes.xy + toNodes.zw, vec2(0.0), vec2(lastNode));
  ivec2 p = ivec2(at);
  ivec2 q = min(p + 1, lastNode);
  vec2 f = at - vec2(p);
  vec4 upper = mix(texelFetch(nodes, ivec2(2 * p.x, p.y), 0), texelFetch(nodes, ivec2(2 * q.x, p.y), 0), f.x);
  vec4 lower = mix(texelFetch(nodes, ivec2(2 * p.x, q.y), 0), texelFetch(nodes, ivec2(2 * q.x, q.y), 0), f.x);
  addition = mix(upper, lower, f.y);
  float high = mix(texelFetch(nodes, ivec2(2 * p.x + 1, p.y), 0).r, texelFetch(nodes, ivec2(2 * q.x + 1, p.y), 0).r, f.x);
  float low = mix(texelFetch(nodes, ivec2(2 * p.x + 1, q.y), 0).r, texelFetch(nodes, ivec2(2 * q.x + 1, q.y), 0).r, f.x);
  spreading = mix(high, low, f.y);
}
float spread(float h) {
  if (spreading == 1.0) return h;
  return ${float(MID_GREY)} * pow(clamp(h, ${float(MIN_H)}, ${float(MAX_H)}) / ${float(MID_GREY)}, spreading);
}
/** Whether the holder or its edge lies here: see holder.ts. Few texels of a wide edge are enough. */
bool isHolder(ivec2 at) {
  if (holder < 0.0) return false;
  ivec2 end = textureSize(codes, 0) - 1;
  int far = int(reach);
  int stride = max(1, far / 3);
  for (int dy = -far; dy <= far; dy += stride)
    for (int dx = -far; dx <= far; dx += stride) {
      uvec3 code = texelFetch(codes, clamp(at + ivec2(dx, dy), ivec2(0), end), 0).rgb;
      if (float(code.r + code.g + code.b) <= holder) return true;
    }
  return false;
}
vec4 onPaper(ivec3 node) { return vec4(texelFetch(paper, node, 0)); }
/** As readProof in engine/colour/proof-table.ts. */
vec4 proof(vec3 encoded) {
  vec3 x = clamp(encoded, 0.0, 1.0) * ${float(PROOF_SIDE - 1)};
  ivec3 node = min(ivec3(x), ${PROOF_SIDE - 2});
  vec3 f = x - vec3(node);
  float most = max(f.r, max(f.g, f.b));
  float least = min(f.r, min(f.g, f.b));
  float middle = f.r + f.g + f.b - most - least;
  ivec3 first = f.r == most ? ivec3(1, 0, 0) : f.g == most ? ivec3(0, 1, 0) : ivec3(0, 0, 1);
  ivec3 second = 1 - (f.b == least ? ivec3(0, 0, 1) : f.g == least ? ivec3(0, 1, 0) : ivec3(1, 0, 0));
  return (1.0 - most) * onPaper(node) + (most - middle) * onPaper(node + first)
    + (middle - least) * onPaper(node + second) + least * onPaper(node + 1);
}
void main() {
  ivec2 at = ivec2(gl_FragCoord.xy);
  readNodes();
  vec3 density = ${float(CODE_DENSITY)} - vec3(texelFetch(codes, at, 0).rgb) * ${float(CODE_STEP)};
  vec3 value;
  if (mono) {
    float t = dot(weights, exp2(density * ${float(-Math.log2(10))}));
    float h = spread(addition.w * exposure(0, -log2(t) * ${float(Math.log10(2))} + offset.x));
    value = vec3(printed(0, h), printed(1, h), printed(2, h));
  } else {
    vec3 d = unmix * density + offset + addition.rgb;
    vec3 h = addition.w * colour * vec3(exposure(0, d.r), exposure(1, d.g), exposure(2, d.b));
    value = vec3(printed(0, spread(h.r)), printed(1, spread(h.g)), printed(2, spread(h.b)));
  }
  vec4 shown = vec4(value * 65535.0, 0.0);
  if (proofs) shown = proof(value);
  int mark = 0;
  if (warn) {
    uint scan = texelFetch(lost, at, 0).r;
    float top = max(value.r, max(value.g, value.b));
    if (scan > 0u) mark = ${CLIPPING.saturated};
    else if (top >= white) mark = ${CLIPPING.white};
    else if (top <= black) mark = ${CLIPPING.black};
    else if (shown.a >= ${float(GAMUT_LIMIT)}) mark = ${CLIPPING.gamut};
  }
  if (isHolder(at)) mark += 8;
  result = vec4(proofs ? shown.rgb / 65535.0 : value, 1.0 - float(mark) * ${float(16 / 255)});
}`;

/** Canvas pixel → place in the layer's part of the scan, and in the picture; outside of either nothing is drawn. */
export const LAY = `#version 300 es
precision highp float;
uniform sampler2D picture;
uniform mat3 toLayer;
uniform mat3 toPicture;
uniform mat3 toCrop;
uniform float height;
uniform float ratio;
out vec4 result;

/** As hatchAt in clipping.ts. */
float hatched(int kind) {
  int period = max(4, int(floor(${float(PERIOD)} * ratio + 0.5)));
  int breadth = max(1, int(floor(${float(BREADTH)} * ratio + 0.5)));
  int x = int(gl_FragCoord.x);
  int y = int(height - gl_FragCoord.y);
  if (kind == ${CLIPPING.gamut}) {
    int row = y % period;
    return row < breadth ? ${float(LEVEL.dark / 255)} : row < breadth + (breadth + 1) / 2 ? ${float(LEVEL.light / 255)} : -1.0;
  }
  float rising = ${lines("rising")};
  float falling = ${lines("falling")};
  if (rising >= 0.0 && (x + y) % period < breadth) return rising;
  return falling >= 0.0 && (x - y + 4096 * period) % period < breadth ? falling : -1.0;
}
void main() {
  vec3 p = vec3(gl_FragCoord.xy, 1.0);
  vec2 at = (toLayer * p).xy;
  vec2 inside = (toPicture * p).xy;
  vec4 here = texture(picture, at);
  if (any(lessThan(inside, vec2(0.0))) || any(greaterThan(inside, vec2(1.0)))) discard;
  if (any(lessThan(at, vec2(0.0))) || any(greaterThan(at, vec2(1.0)))) discard;
  result = vec4(here.rgb, 1.0);
  ivec2 size = textureSize(picture, 0);
  float mark = texelFetch(picture, clamp(ivec2(at * vec2(size)), ivec2(0), size - 1), 0).a;
  int marks = int((1.0 - mark) * ${float(255 / 16)} + 0.5);
  if (marks == 0) return;
  vec2 crop = (toCrop * p).xy;
  bool outside = any(lessThan(crop, vec2(0.0))) || any(greaterThan(crop, vec2(1.0)));
  int kind = marks & 7;
  float grey = kind > 0 ? hatched(kind) : -1.0;
  if ((marks & 8) > 0 && outside) result.rgb = vec3(0.0);
  else if (grey >= 0.0) result.rgb = vec3(grey);
}`;
