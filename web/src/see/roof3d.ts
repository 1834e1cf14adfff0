/** The roof in space, from the plan's own rows. The only file that knows three.js, loaded when it is asked for. */

import {
  AlwaysStencilFunc, AmbientLight, BoxGeometry, BufferAttribute, BufferGeometry, Color, DirectionalLight, DoubleSide, EqualStencilFunc, InstancedMesh, KeepStencilOp, Line, LineBasicMaterial, LineSegments,
  Matrix4, Mesh, MeshLambertMaterial, PerspectiveCamera, Plane, ReplaceStencilOp, Scene, ShapeUtils, Sphere, Vector2, Vector3, WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Plan } from '../api/client';
import { piecesOf } from '../layout/pieces';
import { caps, metal } from './edges';
import { type Pose, type Vector, inSpace, poseOf } from './pose';

/** From the deck up. */
export const LAYERS = ['deck', 'barrier', 'underlayment', 'metal', 'starters', 'units', 'caps'] as const;
export type Layer = (typeof LAYERS)[number];

/** One thing that is laid before the next. */
export interface Step {
  layer: Layer;
  /** Where, or which course, counted from 1. */
  at: string | number;
}

/** A mesh that grows as the roof is laid: so many of its corners, or of its pieces, are there from a step on. */
interface Growing {
  from: number[];
  count: number[];
  show: (count: number) => void;
}

/** Thickness drawn for a unit, inches: enough to throw an edge, and near what units have. */
const THICK = 0.5;
/** Above the deck, inches: so that no layer shines through another from afar. */
const LIFT: Record<Layer, number> = { deck: 0, underlayment: 0.3, barrier: 0.6, metal: 0.8, starters: 0.9, units: 1.1, caps: 3.2 };
/** Of the plan's kinds of rolls; interlayment lies between the courses and is not seen. */
const LAYER_OF: Record<string, Layer> = { 'ice barrier': 'barrier', underlayment: 'underlayment', 'drip edge': 'metal' };
const COLOURS: Record<Layer, number> = { deck: 0xd9c8a4, underlayment: 0x8793a0, barrier: 0x38506b, metal: 0xc27a3a, starters: 0x7b6a58, units: 0x6c7f8c, caps: 0x4f606c };
/** Each layer stands so far out from under the one over it where the roof is cut through, inches. */
const STEP_BACK = 24;

export class Roof3d {
  /** In the order in which they are done. */
  readonly steps: Step[] = [];
  readonly pieces: number;
  readonly #scene = new Scene();
  readonly #camera = new PerspectiveCamera(35, 1, 10, 20_000);
  readonly #renderer: WebGLRenderer;
  readonly #controls: OrbitControls;
  readonly #layers: Record<Layer, (Mesh | InstancedMesh)[]> = { deck: [], barrier: [], underlayment: [], metal: [], starters: [], units: [], caps: [] };
  readonly #growing: Growing[] = [];
  /** Where each layer ends when the roof is cut through, from the right. */
  readonly #cuts = Object.fromEntries(LAYERS.map((layer) => [layer, new Plane(new Vector3(-1, 0, 0), Infinity)])) as Record<Layer, Plane>;
  #span: [number, number] = [0, 0];
  readonly #sizes: ResizeObserver;
  readonly #plan: Plan;
  #frame = 0;

  constructor(canvas: HTMLCanvasElement, plan: Plan) {
    this.#plan = plan;
    this.#renderer = new WebGLRenderer({ canvas, antialias: true, stencil: true });
    this.#renderer.localClippingEnabled = true;
    this.#renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.#camera.up.set(0, 0, 1);
    this.#controls = new OrbitControls(this.#camera, canvas);
    this.#controls.maxPolarAngle = Math.PI * 0.55;
    this.#controls.addEventListener('change', () => this.draw());
    const sun = new DirectionalLight(0xffffff, 2.2);
    sun.position.set(-0.5, -0.8, 1.1);
    this.#scene.add(new AmbientLight(0xffffff, 1.1), sun);
    this.#build(plan);
    this.pieces = plan.layout.pieces;
    this.#resize();
    this.#look(plan);
    this.#sizes = new ResizeObserver(() => this.#resize());
    this.#sizes.observe(canvas);
  }

  /** Draws at the next frame, once. */
  draw(): void {
    this.#frame ||= requestAnimationFrame(() => {
      this.#frame = 0;
      this.drawNow();
    });
  }

  drawNow(): void {
    const { backgroundColor } = getComputedStyle(this.#renderer.domElement);
    this.#scene.background = new Color(backgroundColor);
    this.#renderer.render(this.#scene, this.#camera);
  }

  get context(): WebGLRenderingContext | WebGL2RenderingContext {
    return this.#renderer.getContext();
  }

  get drawCalls(): number {
    return this.#renderer.info.render.calls;
  }

  show(layer: Layer, isShown: boolean): void {
    for (const mesh of this.#layers[layer]) {
      // An unseen deck still keeps the strips within its planes.
      if (layer === 'deck') Object.assign(mesh.material, { colorWrite: isShown, depthWrite: isShown });
      else mesh.visible = isShown;
    }
    this.draw();
  }

  /** Does the first steps and no more. */
  lay(steps: number): void {
    for (const { from, count, show } of this.#growing) show(count[from.findLastIndex((step) => step < steps)] ?? 0);
    this.draw();
  }

  /** Cuts so much of the roof away from its right end, 0 to 1, each layer further back than the one under it. */
  cut(part: number): void {
    const [left, right] = this.#span;
    for (const [above, layer] of LAYERS.entries()) {
      const isCut = part > 0 && layer !== 'deck';
      this.#cuts[layer].constant = isCut ? right - part * (right - left) - above * STEP_BACK : 1e6;
    }
    this.draw();
  }

  /** Turns by degrees to the left and up, and goes nearer by a factor. */
  turn(left: number, up: number, nearer: number): void {
    const from = this.#camera.position.clone().sub(this.#controls.target);
    const flat = Math.hypot(from.x, from.y);
    const around = Math.atan2(from.y, from.x) + (left * Math.PI) / 180;
    const high = Math.min(1.5, Math.max(-0.1, Math.atan2(from.z, flat) + (up * Math.PI) / 180));
    const far = from.length() / nearer;
    this.#camera.position.set(Math.cos(around) * Math.cos(high), Math.sin(around) * Math.cos(high), Math.sin(high)).multiplyScalar(far).add(this.#controls.target);
    this.#controls.update();
    this.draw();
  }

  /** Stands at a place and looks at another, inches. */
  stand(at: Vector, to: Vector): void {
    this.#controls.target.set(...to);
    this.#camera.position.set(...at);
    this.#controls.update();
    this.draw();
  }

  /** From afar again. */
  stepBack(): void {
    this.#look(this.#plan);
    this.draw();
  }

  close(): void {
    this.#sizes.disconnect();
    cancelAnimationFrame(this.#frame);
    this.#controls.dispose();
    this.#scene.traverse((thing) => {
      if (thing instanceof Mesh || thing instanceof Line) thing.geometry.dispose();
    });
    this.#renderer.dispose();
  }

  #resize(): void {
    const { clientWidth, clientHeight } = this.#renderer.domElement;
    this.#renderer.setSize(clientWidth, clientHeight, false);
    this.#camera.aspect = clientWidth / Math.max(1, clientHeight);
    this.#camera.updateProjectionMatrix();
    this.draw();
  }

  #build(plan: Plan): void {
    const poses = new Map<string, Pose>();
    for (const plane of plan.roof.planes) {
      const pose = poseOf(plane.outlines_in[0] ?? [], plane.outlines_ft[0] ?? []);
      if (!pose) continue;
      poses.set(plane.id, pose);
      const deck = this.#add('deck', triangles(polygons(pose, [plane.outlines_in as [number, number][][]], LIFT.deck)));
      deck.renderOrder = -2;
      within(deck, markOf(poses.size), AlwaysStencilFunc);
    }
    this.#strips(plan, poses);
    this.#parts('metal', metal(plan, poses, LIFT.metal).map(({ at, corners }) => ({ at, corners })));
    this.#parts('starters', [{ at: '', corners: starters(plan, poses) }]);
    this.#units(plan, poses);
    this.#parts('caps', caps(plan, poses, LIFT.caps));
    this.#edges(plan);
    const all = plan.roof.planes.flatMap((plane) => plane.outlines_ft.flat()).map(([x]) => (x ?? 0) * 12);
    this.#span = [Math.min(...all), Math.max(...all)];
    this.cut(0);
  }

  #step(layer: Layer, at: string | number): number {
    return this.steps.push({ layer, at }) - 1;
  }

  #add(layer: Layer, geometry: BufferGeometry): Mesh {
    const mesh = new Mesh(geometry, new MeshLambertMaterial({ color: COLOURS[layer], side: DoubleSide, clippingPlanes: [this.#cuts[layer]] }));
    this.#layers[layer].push(mesh);
    this.#scene.add(mesh);
    return mesh;
  }

  /** What comes from rolls, strip by strip; of each plane one mesh, in which the deck's stencil keeps it. */
  #strips(plan: Plan, poses: Map<string, Pose>): void {
    const meshes = new Map<string, { layer: Layer; plane: string; corners: number[]; growing: Growing }>();
    for (const rolls of plan.details.rolls) {
      const layer = LAYER_OF[rolls.kind];
      if (!layer) continue;
      for (const strip of rolls.strips) {
        const step = this.#step(layer, strip.at);
        for (const patch of strip.patches) {
          const pose = poses.get(patch.plane);
          if (!pose) continue;
          const key = `${layer} ${patch.plane}`;
          const mesh = meshes.get(key) ?? { layer, plane: patch.plane, corners: [], growing: { from: [], count: [], show: () => undefined } };
          meshes.set(key, mesh);
          mesh.corners.push(...polygons(pose, [[patch.corners_in as [number, number][]]], LIFT[layer]));
          mesh.growing.from.push(step);
          mesh.growing.count.push(mesh.corners.length / 3);
        }
      }
    }
    const marks = [...poses.keys()];
    for (const { layer, plane, corners, growing } of meshes.values()) {
      const mesh = this.#add(layer, triangles(corners));
      mesh.renderOrder = -1;
      within(mesh, markOf(marks.indexOf(plane) + 1), EqualStencilFunc);
      growing.show = (count) => mesh.geometry.setDrawRange(0, count);
      this.#growing.push(growing);
    }
  }

  /** Parts that are laid one after the other, all in one mesh. */
  #parts(layer: Layer, parts: { at: string; corners: number[] }[]): void {
    const corners: number[] = [];
    const growing: Growing = { from: [], count: [], show: () => undefined };
    for (const part of parts) {
      if (part.corners.length === 0) continue;
      for (const value of part.corners) corners.push(value);
      growing.from.push(this.#step(layer, part.at));
      growing.count.push(corners.length / 3);
    }
    if (corners.length === 0) return;
    const { geometry } = this.#add(layer, triangles(corners));
    growing.show = (count) => geometry.setDrawRange(0, count);
    this.#growing.push(growing);
  }

  /** Course by course over all planes: whole units in one mesh, cut ones in another. */
  #units(plan: Plan, poses: Map<string, Pose>): void {
    const planes = plan.layout.planes.flatMap((laid) => {
      const pose = poses.get(laid.id);
      return pose ? [{ pose, laid }] : [];
    });
    const courses = Math.max(0, ...planes.map(({ laid }) => laid.courses.length));
    const [whole, cut]: [Growing, Growing] = [{ from: [], count: [], show: () => undefined }, { from: [], count: [], show: () => undefined }];
    const boxes = new InstancedMesh(openBox(), new MeshLambertMaterial({ color: 0xffffff, clippingPlanes: [this.#cuts.units] }), Math.max(1, plan.layout.pieces));
    const corners: number[] = [];
    let at = 0;
    for (let course = 0; course < courses; course += 1) {
      const step = this.#step('units', course + 1);
      for (const { pose, laid } of planes) {
        for (const piece of piecesOf(laid, course)) {
          if (piece.cut) {
            for (const part of piece.parts) for (const value of tilted(pose, part, piece.at[1], piece.length)) corners.push(value);
          } else {
            boxes.setMatrixAt(at, box(pose, piece.at, piece.width, piece.length));
            boxes.setColorAt(at, shaded(course, piece.number));
            at += 1;
          }
        }
      }
      for (const [growing, count] of [[whole, at], [cut, corners.length / 3]] as const) {
        growing.from.push(step);
        growing.count.push(count);
      }
    }
    boxes.count = at;
    boxes.computeBoundingSphere();
    const rest = this.#add('units', triangles(corners));
    this.#layers.units.push(boxes);
    this.#scene.add(boxes);
    whole.show = (count) => (boxes.count = count);
    cut.show = (count) => rest.geometry.setDrawRange(0, count);
    this.#growing.push(whole, cut);
  }

  /** Ridges, hips and valleys as lines over everything. */
  #edges(plan: Plan): void {
    const corners = plan.roof.lines.flatMap((line) => line.ends_ft.flatMap(([x, y, z]) => [(x ?? 0) * 12, (y ?? 0) * 12, (z ?? 0) * 12 + 2]));
    const geometry = new BufferGeometry().setAttribute('position', new BufferAttribute(new Float32Array(corners), 3));
    this.#scene.add(new LineSegments(geometry, new LineBasicMaterial({ color: 0x10202e })));
  }

  /** From the south-west, all of it in sight. */
  #look(plan: Plan): void {
    const corners = plan.roof.planes.flatMap((plane) => plane.outlines_ft.flat()).map(([x, y, z]) => new Vector3((x ?? 0) * 12, (y ?? 0) * 12, (z ?? 0) * 12));
    // An upright sheet sees less from side to side.
    const { center, radius } = new Sphere().setFromPoints(corners.length > 0 ? corners : [new Vector3()]);
    this.#controls.target.copy(center);
    this.#camera.position.copy(center).add(new Vector3(-0.55, -0.95, 0.7).normalize().multiplyScalar(Math.max(60, radius * (this.#camera.aspect < 1 ? 3.2 / this.#camera.aspect : 2.7))));
    this.#controls.update();
  }
}

/** A plane's mark in the stencil, which has room for 255. */
function markOf(plane: number): number {
  return ((plane - 1) % 255) + 1;
}

/** The deck marks where its plane is seen; strips, which reach over ridges and hips, are drawn only there. */
function within(mesh: Mesh, mark: number, when: typeof AlwaysStencilFunc | typeof EqualStencilFunc): void {
  const isDeck = when === AlwaysStencilFunc;
  Object.assign(mesh.material, { stencilWrite: true, stencilRef: mark, stencilFunc: when, stencilZPass: isDeck ? ReplaceStencilOp : KeepStencilOp });
}

/** Flat polygons on a plane, holes and all. */
function polygons(pose: Pose, all: [number, number][][][], lift: number): number[] {
  return all.flatMap(([outer = [], ...holes]) => {
    const rings = [outer, ...holes].map((ring) => ring.map(([u, v]) => new Vector2(u, v)));
    const flat = rings.flat();
    return ShapeUtils.triangulateShape(rings[0] ?? [], rings.slice(1)).flatMap((triangle) => triangle.flatMap((corner) => inSpace(pose, flat[corner]?.x ?? 0, flat[corner]?.y ?? 0, lift)));
  });
}

/** Every starter, as it lies under the first course. */
function starters(plan: Plan, poses: Map<string, Pose>): number[] {
  return plan.layout.planes.flatMap((laid) => {
    const pose = poses.get(laid.id);
    if (!pose) return [];
    return laid.starters.flatMap((row) => {
      const quad = (left: number): [number, number][] => [[left, row.butt_in], [left + row.step_in - 0.2, row.butt_in], [left + row.step_in - 0.2, row.butt_in + row.height_in], [left, row.butt_in + row.height_in]];
      return polygons(pose, Array.from({ length: row.count }, (_, n) => [quad(row.left_in + n * row.step_in)]), LIFT.starters);
    });
  });
}

/** A part of a unit, its butt raised as the units below raise it. */
function tilted(pose: Pose, part: [number, number][], butt: number, length: number): number[] {
  const lift = (v: number) => LIFT.units + THICK + (2 * THICK * (length - (v - butt))) / length;
  return ShapeUtils.triangulateShape(part.map(([u, v]) => new Vector2(u, v)), []).flatMap((triangle) =>
    triangle.flatMap((corner) => {
      const [u, v] = part[corner] ?? [0, 0];
      return inSpace(pose, u, v, lift(v));
    }),
  );
}

function triangles(corners: number[]): BufferGeometry {
  const geometry = new BufferGeometry().setAttribute('position', new BufferAttribute(new Float32Array(corners), 3));
  geometry.computeVertexNormals();
  return geometry;
}

/** Where the unit box goes: `width` along the course, `length` up the slope and down again to the deck at its head. */
function box(pose: Pose, [u, v]: [number, number], width: number, length: number): Matrix4 {
  const { right, up, out } = pose;
  const [x, y, z] = inSpace(pose, u, v, LIFT.units + 2 * THICK);
  const fall = 2 * THICK;
  return new Matrix4().set(
    right[0] * width, up[0] * length - out[0] * fall, out[0] * THICK, x,
    right[1] * width, up[1] * length - out[1] * fall, out[1] * THICK, y,
    right[2] * width, up[2] * length - out[2] * fall, out[2] * THICK, z,
    0, 0, 0, 1,
  );
}

/** A box of one by one by one without its underside and its head, which nobody sees on a roof. */
function openBox(): BufferGeometry {
  const whole = new BoxGeometry(1, 1, 1).translate(0.5, 0.5, 0.5);
  // Its faces come in sixes of corners: right, left, head, butt, top, underside.
  const faces = Array.from(whole.index?.array ?? []);
  whole.setIndex([0, 1, 3, 4].flatMap((face) => faces.slice(face * 6, face * 6 + 6)));
  return whole;
}

/** A little lighter and darker from unit to unit, the same every time, so that each is seen. */
function shaded(course: number, number: number): Color {
  const step = ((course * 7 + number * 5) % 11) / 11 - 0.5;
  return new Color(COLOURS.units).offsetHSL(0, 0, step * 0.07);
}
