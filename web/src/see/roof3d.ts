/** The roof in space, from the plan's own rows. The only file that knows three.js, loaded when it is asked for. */

import {
  AlwaysStencilFunc, AmbientLight, BoxGeometry, BufferAttribute, BufferGeometry, Color, DirectionalLight, DoubleSide, EqualStencilFunc, InstancedMesh, KeepStencilOp, Line, LineBasicMaterial, LineSegments,
  Matrix4, Mesh, MeshLambertMaterial, PerspectiveCamera, ReplaceStencilOp, Scene, ShapeUtils, Sphere, Vector2, Vector3, WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Plan } from '../api/client';
import { piecesOf } from '../layout/pieces';
import { type Pose, inSpace, poseOf } from './pose';

export type Layer = 'deck' | 'barrier' | 'underlayment' | 'starters' | 'units';

interface Laid {
  /** Pieces of the courses up to each, whole ones and corners of cut ones. */
  whole: number[];
  cut: number[];
  boxes: InstancedMesh;
  rest: Mesh;
}

/** Thickness drawn for a unit, inches: enough to throw an edge, and near what units have. */
const THICK = 0.5;
/** Above the deck, inches: so that no layer shines through another from afar. */
const LIFT: Record<Layer, number> = { deck: 0, underlayment: 0.3, barrier: 0.6, starters: 0.9, units: 1.1 };
/** Of the plan's kinds of rolls; drip edge and interlayment are too thin to be seen. */
const LAYER_OF: Record<string, Layer> = { 'ice barrier': 'barrier', underlayment: 'underlayment' };
const COLOURS: Record<Layer, number> = { deck: 0xd9c8a4, underlayment: 0x8793a0, barrier: 0x38506b, starters: 0x7b6a58, units: 0x6c7f8c };

export class Roof3d {
  readonly courses: number;
  readonly pieces: number;
  readonly #scene = new Scene();
  readonly #camera = new PerspectiveCamera(35, 1, 10, 20_000);
  readonly #renderer: WebGLRenderer;
  readonly #controls: OrbitControls;
  readonly #layers: Record<Layer, (Mesh | InstancedMesh)[]> = { deck: [], barrier: [], underlayment: [], starters: [], units: [] };
  readonly #laid: Laid[] = [];
  readonly #sizes: ResizeObserver;
  #frame = 0;

  constructor(canvas: HTMLCanvasElement, plan: Plan) {
    this.#renderer = new WebGLRenderer({ canvas, antialias: true, stencil: true });
    this.#renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    this.#camera.up.set(0, 0, 1);
    this.#controls = new OrbitControls(this.#camera, canvas);
    this.#controls.maxPolarAngle = Math.PI * 0.55;
    this.#controls.addEventListener('change', () => this.draw());
    const sun = new DirectionalLight(0xffffff, 2.2);
    sun.position.set(-0.5, -0.8, 1.1);
    this.#scene.add(new AmbientLight(0xffffff, 1.1), sun);
    this.#build(plan);
    this.courses = Math.max(0, ...plan.layout.planes.map((plane) => plane.courses.length));
    this.pieces = plan.layout.pieces;
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

  /** Lays the first courses of every plane. */
  lay(courses: number): void {
    for (const { whole, cut, boxes, rest } of this.#laid) {
      const last = Math.min(courses, whole.length) - 1;
      boxes.count = last < 0 ? 0 : (whole[last] ?? 0);
      rest.geometry.setDrawRange(0, last < 0 ? 0 : (cut[last] ?? 0));
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
      if (pose) poses.set(plane.id, pose);
      if (!pose) continue;
      const deck = this.#add('deck', polygons(pose, [plane.outlines_in as [number, number][][]], LIFT.deck));
      deck.renderOrder = -2;
      within(deck, markOf(poses.size), AlwaysStencilFunc);
    }
    for (const rolls of plan.details.rolls) {
      const layer = LAYER_OF[rolls.kind];
      if (!layer) continue;
      for (const patch of rolls.strips.flatMap((strip) => strip.patches)) {
        const pose = poses.get(patch.plane);
        if (!pose) continue;
        const strip = this.#add(layer, polygons(pose, [[patch.corners_in as [number, number][]]], LIFT[layer]));
        strip.renderOrder = -1;
        within(strip, markOf([...poses.keys()].indexOf(patch.plane) + 1), EqualStencilFunc);
      }
    }
    for (const laid of plan.layout.planes) {
      const pose = poses.get(laid.id);
      if (!pose) continue;
      for (const row of laid.starters) {
        const quad = (left: number): [number, number][] => [[left, row.butt_in], [left + row.step_in - 0.2, row.butt_in], [left + row.step_in - 0.2, row.butt_in + row.height_in], [left, row.butt_in + row.height_in]];
        this.#add('starters', polygons(pose, Array.from({ length: row.count }, (_, n) => [quad(row.left_in + n * row.step_in)]), LIFT.starters));
      }
      this.#lay(laid, pose);
    }
    this.#edges(plan);
  }

  #add(layer: Layer, geometry: BufferGeometry): Mesh {
    const mesh = new Mesh(geometry, new MeshLambertMaterial({ color: COLOURS[layer], side: DoubleSide }));
    this.#layers[layer].push(mesh);
    this.#scene.add(mesh);
    return mesh;
  }

  #lay(laid: Plan['layout']['planes'][number], pose: Pose): void {
    const rows = laid.courses.map((_, course) => piecesOf(laid, course));
    const count = rows.flat().filter((piece) => !piece.cut).length;
    const material = new MeshLambertMaterial({ color: 0xffffff });
    const boxes = new InstancedMesh(new BoxGeometry(1, 1, 1).translate(0.5, 0.5, 0.5), material, Math.max(1, count));
    const [whole, cut]: [number[], number[]] = [[], []];
    const corners: number[] = [];
    let at = 0;
    for (const row of rows) {
      for (const piece of row) {
        const shade = shaded(piece.course, piece.number);
        if (piece.cut) {
          for (const part of piece.parts) corners.push(...tilted(pose, part, piece.at[1], piece.length));
        } else {
          boxes.setMatrixAt(at, box(pose, piece.at, piece.width, piece.length));
          boxes.setColorAt(at, shade);
          at += 1;
        }
      }
      whole.push(at);
      cut.push(corners.length / 3);
    }
    boxes.count = at;
    boxes.computeBoundingSphere();
    const rest = this.#add('units', triangles(corners));
    this.#layers.units.push(boxes);
    this.#scene.add(boxes);
    this.#laid.push({ whole, cut, boxes, rest });
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
    const { center, radius } = new Sphere().setFromPoints(corners.length > 0 ? corners : [new Vector3()]);
    this.#controls.target.copy(center);
    this.#camera.position.copy(center).add(new Vector3(-0.55, -0.95, 0.7).normalize().multiplyScalar(Math.max(60, radius * 2.7)));
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
function polygons(pose: Pose, all: [number, number][][][], lift: number): BufferGeometry {
  const corners = all.flatMap(([outer = [], ...holes]) => {
    const rings = [outer, ...holes].map((ring) => ring.map(([u, v]) => new Vector2(u, v)));
    const flat = rings.flat();
    return ShapeUtils.triangulateShape(rings[0] ?? [], rings.slice(1)).flatMap((triangle) => triangle.flatMap((corner) => inSpace(pose, flat[corner]?.x ?? 0, flat[corner]?.y ?? 0, lift)));
  });
  return triangles(corners);
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

/** A little lighter and darker from unit to unit, the same every time, so that each is seen. */
function shaded(course: number, number: number): Color {
  const step = ((course * 7 + number * 5) % 11) / 11 - 0.5;
  return new Color(COLOURS.units).offsetHSL(0, 0, step * 0.07);
}
