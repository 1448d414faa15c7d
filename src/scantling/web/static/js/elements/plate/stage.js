/** The stage: light, floor, camera. It draws only when something changed. */

import {
  Color,
  DirectionalLight,
  HemisphereLight,
  Mesh,
  PCFSoftShadowMap,
  PerspectiveCamera,
  PlaneGeometry,
  Raycaster,
  Scene,
  ShadowMaterial,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import { MeasureMarks, edgeAt } from "./edges.js";
import { CUTS, Section } from "./section.js";
import { fittingDistance, toward } from "../../lib/orbit.js";

/** @typedef {import("../../types.js").Pose} Pose */
/** @typedef {import("./model.js").Model} Model */

const FOV_DEG = 26;
const MARGIN = 1.08;
const SHARPEST = 2;
/** Used within one call each, so that nothing is made anew in every frame. */
const [MIDDLE, HALF, PLACE] = [new Vector3(), new Vector3(), new Vector2()];
const RAY = new Raycaster();
/** How far from the edge of the picture a shadow begins to thin, over its width or height. */
const FADE = 0.14;

export class Stage {
  #scene = new Scene();
  #camera = new PerspectiveCamera(FOV_DEG, 1, 0.05, 100);
  #sun = new DirectionalLight(0xfffaf2, 1.7);
  #floor = new Mesh(new PlaneGeometry(1, 1), new ShadowMaterial({ opacity: 0.2 }));
  #picture = { value: new Vector2(1, 1) };
  #asked = 0;
  /** @type {Section | null} */
  #section = null;
  /** @type {"" | keyof typeof CUTS} */
  #cut = "";
  marks = new MeasureMarks();

  /** @param {HTMLElement} host @throws {Error} where there is no WebGL */
  constructor(host) {
    this.host = host;
    this.renderer = new WebGLRenderer({ antialias: true, alpha: true, stencil: true, preserveDrawingBuffer: true });
    this.renderer.localClippingEnabled = true;
    this.renderer.shadowMap.enabled = true;
    this.renderer.shadowMap.type = PCFSoftShadowMap;
    this.renderer.shadowMap.autoUpdate = false;
    host.append(this.renderer.domElement);
    this.#floor.rotation.x = -Math.PI / 2;
    this.#floor.receiveShadow = true;
    fadeAtEdges(this.#floor.material, this.#picture);
    this.#sun.castShadow = true;
    this.#sun.shadow.mapSize.set(1024, 1024);
    this.#sun.shadow.radius = 6;
    this.#sun.shadow.bias = -0.0004;
    this.#sun.shadow.normalBias = 0.004;
    const sky = new HemisphereLight(0xffffff, 0xb9bfae, 1.8);
    this.#scene.add(sky, this.#sun, this.#sun.target, this.#floor);
    /** @type {Model | null} */
    this.model = null;
    /** Called after each drawing. */
    this.drawn = () => {};
    /** @type {Pose} */
    this.pose = { aroundDeg: 0, aboveDeg: 0, near: 1 };
  }

  /** @param {Model} model */
  show(model) {
    if (this.model) {
      this.#scene.remove(this.model.root);
      this.#section?.dispose();
      this.model.dispose();
      this.#section = null;
    }
    this.model = model;
    this.#scene.add(model.root, this.marks.lines);
    this.light();
  }

  /** Set light and floor to the piece as it stands now. */
  light() {
    if (!this.model) return;
    const size = this.model.box.getSize(new Vector3());
    const middle = this.model.box.getCenter(new Vector3());
    const reach = size.length();
    this.#sun.position.copy(middle).add(new Vector3(-0.4, 1.6, 0.6).multiplyScalar(reach));
    this.#sun.target.position.copy(middle);
    const { camera } = this.#sun.shadow;
    Object.assign(camera, { left: -reach, right: reach, top: reach, bottom: -reach, near: 0.01, far: 4 * reach });
    camera.updateProjectionMatrix();
    this.#floor.scale.setScalar(reach * 5);
    this.renderer.shadowMap.needsUpdate = true;
    this.ask();
  }

  /** @param {string} shade 0..1 as a style has it */
  darken(shade) {
    this.#floor.material.opacity = Number(shade) || 0.2;
    this.ask();
  }

  /** Fit the drawing to its place on the page. */
  resize() {
    const { clientWidth: width, clientHeight: height } = this.host;
    if (!width || !height) return;
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, SHARPEST));
    this.renderer.setSize(width, height, false);
    this.#camera.aspect = width / height;
    this.renderer.getDrawingBufferSize(this.#picture.value);
    this.draw();
  }

  /** Draw before the next frame is shown. */
  ask() {
    if (this.#asked) return;
    this.#asked = requestAnimationFrame(() => this.draw());
  }

  draw() {
    cancelAnimationFrame(this.#asked);
    this.#asked = 0;
    this.#aim();
    // the library counts a frame between the faces and their shadows, and would pass over what was marked since: see to it
    // that none is taken for the one before
    this.renderer.info.render.frame += 1;
    this.renderer.render(this.#scene, this.#camera);
    this.drawn();
  }

  #aim() {
    if (!this.model || this.model.box.isEmpty()) return;
    const middle = this.model.box.getCenter(MIDDLE);
    const half = this.model.box.getSize(HALF).multiplyScalar(0.5);
    const fits = fittingDistance([half.x, half.y, half.z], this.pose, FOV_DEG, this.#camera.aspect);
    const distance = fits * MARGIN * this.pose.near;
    this.#camera.position.set(...toward(this.pose)).multiplyScalar(distance).add(middle);
    this.#camera.near = Math.max(0.01, distance - half.length() * 3);
    this.#camera.far = distance + half.length() * 8;
    this.#camera.lookAt(middle);
    this.#camera.updateProjectionMatrix();
    this.#camera.updateMatrixWorld();
  }

  /**
   * The part seen at a point of the page.
   *
   * @param {number} clientX
   * @param {number} clientY
   * @returns {string} empty for none
   */
  partAt(clientX, clientY) {
    if (!this.model) return "";
    const frame = this.host.getBoundingClientRect();
    PLACE.set(((clientX - frame.left) / frame.width) * 2 - 1, 1 - ((clientY - frame.top) / frame.height) * 2);
    const hit = this.#hit(PLACE);
    return this.model.nameOf(hit?.object, hit?.instanceId);
  }

  /** The first part behind a place of the picture that is not cut away. @param {Vector2} at */
  #hit(at) {
    if (!this.model) return undefined;
    RAY.setFromCamera(at, this.#camera);
    const hits = RAY.intersectObjects(this.model.forms.map((form) => form.faces), false);
    return hits.find((each) => !this.#cut || !this.#section?.isAway(each.point));
  }

  /**
   * The edge seen nearest to a point of the page.
   *
   * @param {number} clientX
   * @param {number} clientY
   */
  edgeAt(clientX, clientY) {
    if (!this.model) return null;
    const frame = this.host.getBoundingClientRect();
    const at = { x: clientX - frame.left, y: clientY - frame.top, width: frame.width, height: frame.height };
    return edgeAt(this.model, this.#camera, at, (seen) => this.#hit(new Vector2(seen.x, seen.y))?.distance ?? Infinity);
  }

  /**
   * Cut the piece open, or show it whole again.
   *
   * @param {"" | keyof typeof CUTS} cut
   * @param {number} share where, 0..1
   */
  cutOpen(cut, share) {
    this.#cut = cut;
    if (!this.model) return;
    if (cut) {
      this.#section ??= new Section(this.model);
      this.#section.cut(cut, share);
    } else this.#section?.off();
    this.renderer.shadowMap.needsUpdate = true;
    this.ask();
  }

  /**
   * Where a part's middle is seen on the page.
   *
   * @param {string} name
   * @returns {{x: number, y: number} | null}
   */
  placeOf(name) {
    const at = this.model?.middleOf(name);
    if (!at) return null;
    const seen = this.#seen(at);
    const frame = this.host.getBoundingClientRect();
    return { x: frame.left + seen.x, y: frame.top + seen.y };
  }

  /** Where the tightest place of the month is seen, from the corner of the drawing. */
  tightPlace() {
    const at = this.model?.tightAt();
    return at ? this.#seen(at) : null;
  }

  /** @param {Vector3} at */
  #seen(at) {
    at.project(this.#camera);
    return { x: ((at.x + 1) / 2) * this.host.clientWidth, y: ((1 - at.y) / 2) * this.host.clientHeight };
  }

  /** Colors of the page, for marks in the drawing. @param {boolean} binds */
  ink(binds) {
    const style = getComputedStyle(document.documentElement);
    const color = (/** @type {string} */ name) => new Color(style.getPropertyValue(name).trim()).getStyle();
    return { mark: color("--mark"), arris: color("--arris"), thin: color("--arris-thin"), tight: color(binds ? "--red" : "--green") };
  }
}

/**
 * A shadow that runs out of the picture thins away before its edge.
 *
 * @param {ShadowMaterial} material
 * @param {{value: Vector2}} picture its size in the pixels drawn
 */
function fadeAtEdges(material, picture) {
  material.onBeforeCompile = (shader) => {
    shader.uniforms["picture"] = picture;
    shader.fragmentShader = shader.fragmentShader.replace("void main() {", "uniform vec2 picture;\nvoid main() {").replace(
      "#include <tonemapping_fragment>",
      `vec2 place = gl_FragCoord.xy / picture;
      vec2 inward = min(place, 1.0 - place);
      gl_FragColor.a *= smoothstep(0.01, ${FADE}, min(inward.x, inward.y));
      #include <tonemapping_fragment>`,
    );
  };
}
