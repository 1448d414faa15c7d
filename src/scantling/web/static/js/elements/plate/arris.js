/**
 * Arrises of the bodies: lines that never come to lie before both of their ends. A line seen nearly on its end covers a
 * few pixels, and what depth it has in them is reckoned past its ends: hidden lines would show through as specks.
 * What is round has no arris along it; it is drawn where it turns away from the eye, as a hand would.
 */

import { BufferAttribute, BufferGeometry, LineBasicMaterial } from "three";

/** @typedef {{ends: ArrayLike<number>, sides: Float32Array}} Rounds */

/**
 * Lines with each end told where the other is. Those of what is round come behind the arrises, with the ways the faces
 * beside them look; an arris, which is always drawn, has none.
 *
 * @param {BufferAttribute} corners
 * @param {BufferAttribute | null} arrises indices of corners, two a line
 * @param {Rounds} rounds
 */
export function arrisGeometry(corners, arrises, rounds) {
  const ends = [.../** @type {number[]} */ (arrises ? arrises.array : []), ...Array.from(rounds.ends)];
  const room = () => new Float32Array(ends.length * 3);
  const [own, other, one, two] = [room(), room(), room(), room()];
  ends.forEach((corner, index) => {
    const place = [corners.getX(corner), corners.getY(corner), corners.getZ(corner)];
    own.set(place, index * 3);
    other.set(place, (index % 2 ? index - 1 : index + 1) * 3);
  });
  const first = ends.length - rounds.ends.length;
  for (let index = first; index < ends.length; index += 1) {
    const at = Math.floor((index - first) / 2) * 6;
    one.set(rounds.sides.subarray(at, at + 3), index * 3);
    two.set(rounds.sides.subarray(at + 3, at + 6), index * 3);
  }
  const told = { position: own, otherEnd: other, oneSide: one, otherSide: two };
  const geometry = new BufferGeometry();
  for (const [name, values] of Object.entries(told)) geometry.setAttribute(name, new BufferAttribute(values, 3));
  return geometry;
}

/** What arrises are drawn with. @param {number} color */
export function arrisInk(color) {
  const ink = new LineBasicMaterial({ color });
  ink.onBeforeCompile = (shader) => {
    shader.vertexShader = shader.vertexShader
      .replace("#include <common>", "#include <common>\nattribute vec3 otherEnd, oneSide, otherSide;\nvarying vec2 vDepths;")
      .replace(
        "#include <project_vertex>",
        `#include <project_vertex>
        vec4 far = vec4(otherEnd, 1.0);
        vec3 ways[2] = vec3[2](oneSide, otherSide);
        #ifdef USE_INSTANCING
          far = instanceMatrix * far;
          for (int i = 0; i < 2; i++) ways[i] = mat3(instanceMatrix) * ways[i];
        #endif
        vec2 facing = vec2(dot(mat3(modelViewMatrix) * ways[0], mvPosition.xyz), dot(mat3(modelViewMatrix) * ways[1], mvPosition.xyz));
        far = projectionMatrix * modelViewMatrix * far;
        vec2 both = vec2(gl_Position.z / gl_Position.w, far.z / far.w) * 0.5 + 0.5;
        vDepths = vec2(min(both.x, both.y), max(both.x, both.y));
        if (facing.x * facing.y > 0.0) gl_Position = vec4(0.0, 0.0, 2.0, 1.0); // a round that does not turn away here: out of sight`,
      );
    shader.fragmentShader = shader.fragmentShader
      .replace("#include <common>", "#include <common>\nvarying vec2 vDepths;")
      .replace("#include <opaque_fragment>", "#include <opaque_fragment>\ngl_FragDepth = clamp(gl_FragCoord.z, vDepths.x, vDepths.y);");
  };
  return ink;
}
