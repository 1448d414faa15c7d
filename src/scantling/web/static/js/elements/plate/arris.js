/**
 * Arrises of the bodies: lines that never come to lie before both of their ends. A line seen nearly on its end covers a
 * few pixels, and what depth it has in them is reckoned past its ends: hidden lines would show through as specks.
 */

import { BufferAttribute, BufferGeometry, LineBasicMaterial } from "three";

/**
 * Lines with each end told where the other is.
 *
 * @param {BufferAttribute} corners
 * @param {BufferAttribute} ends indices of corners, two a line
 */
export function arrisGeometry(corners, ends) {
  const own = new Float32Array(ends.count * 3);
  const other = new Float32Array(ends.count * 3);
  for (let index = 0; index < ends.count; index += 1) {
    const corner = ends.getX(index);
    const place = [corners.getX(corner), corners.getY(corner), corners.getZ(corner)];
    own.set(place, index * 3);
    other.set(place, (index % 2 ? index - 1 : index + 1) * 3);
  }
  return new BufferGeometry().setAttribute("position", new BufferAttribute(own, 3)).setAttribute("otherEnd", new BufferAttribute(other, 3));
}

/** What arrises are drawn with. @param {number} color */
export function arrisInk(color) {
  const ink = new LineBasicMaterial({ color });
  ink.onBeforeCompile = (shader) => {
    shader.vertexShader = shader.vertexShader
      .replace("#include <common>", "#include <common>\nattribute vec3 otherEnd;\nvarying vec2 vDepths;")
      .replace(
        "#include <project_vertex>",
        `#include <project_vertex>
        vec4 far = vec4(otherEnd, 1.0);
        #ifdef USE_INSTANCING
          far = instanceMatrix * far;
        #endif
        far = projectionMatrix * modelViewMatrix * far;
        vec2 both = vec2(gl_Position.z / gl_Position.w, far.z / far.w) * 0.5 + 0.5;
        vDepths = vec2(min(both.x, both.y), max(both.x, both.y));`,
      );
    shader.fragmentShader = shader.fragmentShader
      .replace("#include <common>", "#include <common>\nvarying vec2 vDepths;")
      .replace("#include <opaque_fragment>", "#include <opaque_fragment>\ngl_FragDepth = clamp(gl_FragCoord.z, vDepths.x, vDepths.y);");
  };
  return ink;
}
