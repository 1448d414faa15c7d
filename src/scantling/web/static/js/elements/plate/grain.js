/**
 * Wood on a part: growth rings and fibers, drawn along the part's own axes (x along the grain), so that end grain,
 * edge and face each look as they would. It is only a picture: no real board looks just like it.
 */

import { Color, MeshStandardMaterial } from "three";

/** How much is left of a part that is seen through. */
const THIN = 0.22;

const NOISE = `
varying vec3 vWood;
flat varying vec2 vBody;
uniform vec3 uMark;
float hash21(vec2 p) {
  p = fract(p * vec2(123.34, 456.21));
  p += dot(p, p + 45.32);
  return fract(p.x * p.y);
}
float noise2(vec2 p) {
  vec2 i = floor(p), f = fract(p);
  f = f * f * (3.0 - 2.0 * f);
  return mix(mix(hash21(i), hash21(i + vec2(1.0, 0.0)), f.x),
             mix(hash21(i + vec2(0.0, 1.0)), hash21(i + vec2(1.0, 1.0)), f.x), f.y);
}
float woodShade(vec3 mm) {
  vec2 pith = vec2(60.0 * (vBody.x - 0.5), -90.0 - 60.0 * fract(vBody.x * 7.0));
  float wander = 10.0 * noise2(vec2(mm.x * 0.004, vBody.x * 31.0)) + 2.5 * noise2(mm.xy * vec2(0.012, 0.05) + vBody.x);
  float years = (length(mm.yz - pith) + wander) / 9.0;
  float ring = fract(years);
  float late = smoothstep(0.35, 0.9, ring) * (1.0 - smoothstep(0.9, 1.0, ring));
  late *= 1.0 - smoothstep(0.25, 0.8, fwidth(years));
  vec2 across = vec2(mm.y + mm.z * 0.7, mm.x * 0.012) * vec2(1.1, 1.0);
  float fiber = noise2(across + vBody.x * 17.0) - 0.5;
  fiber *= 1.0 - smoothstep(0.5, 1.6, fwidth(across.x));
  float board = 0.06 * (vBody.x - 0.5);
  return 1.02 + board - 0.2 * late - 0.16 * fiber;
}
`;

/**
 * One material for all parts; each brings its tone, and in `bodyShade` its seed and how far it is marked.
 *
 * @param {boolean} through whether it is seen through
 * @returns {MeshStandardMaterial & {userData: {uMark: {value: Color}}}}
 */
export function woodMaterial(through) {
  const seen = through ? { transparent: true, opacity: THIN, depthWrite: false } : {};
  // a face lies half a pixel of its own slope behind its arrises, which else come and go along it as dashed lines do;
  // more than that, and what is cut into its other side shows through as specks
  const behind = { polygonOffset: true, polygonOffsetFactor: 0.5, polygonOffsetUnits: 1 };
  const material = new MeshStandardMaterial({ color: 0xffffff, roughness: 0.8, metalness: 0, ...behind, ...seen });
  const uniforms = { uMark: { value: new Color() } };
  material.userData = uniforms;
  material.onBeforeCompile = (shader) => {
    Object.assign(shader.uniforms, uniforms);
    shader.vertexShader = shader.vertexShader
      .replace(
        "#include <common>",
        "#include <common>\nattribute vec2 bodyShade;\nvarying vec3 vWood;\nflat varying vec2 vBody;",
      )
      .replace("#include <begin_vertex>", "#include <begin_vertex>\nvWood = position * 1000.0;\nvBody = bodyShade;");
    shader.fragmentShader = shader.fragmentShader
      .replace("#include <common>", `#include <common>\n${NOISE}`)
      .replace(
        "#include <color_fragment>",
        "#include <color_fragment>\ndiffuseColor.rgb *= woodShade(vWood);\n" +
          "diffuseColor.rgb = mix(diffuseColor.rgb, uMark, vBody.y);",
      );
  };
  // the type of userData is any in the library
  return /** @type {any} */ (material);
}

/**
 * A number from 0 to 1 that stays the same for a name.
 *
 * @param {string} name
 */
export function seedOf(name) {
  let sum = 7;
  for (const letter of name) sum = (sum * 31 + (letter.codePointAt(0) ?? 0)) % 9973;
  return sum / 9973;
}
