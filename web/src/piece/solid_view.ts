// The piece to turn about. Draws when something changed and not otherwise.
import {
  AmbientLight, Box3, BoxGeometry, BufferAttribute, BufferGeometry, Color, DirectionalLight, EdgesGeometry, Group, LineBasicMaterial, LineLoop, LineSegments,
  Matrix4, Mesh, MeshBasicMaterial, type MeshLambertMaterial, PerspectiveCamera, Plane, Raycaster, Scene, Vector2, Vector3, WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import type { SolidPart } from '../api/server';
import { kChair } from './chair';
import { kFigure } from './figure';
import { unpacked, type Solids } from './packed';
import type { Axis } from './seen';
import { wood_material } from './wood_material';

type Shown = { part: SolidPart; mesh: Mesh<BufferGeometry, MeshLambertMaterial>; edges: LineSegments; home: Matrix4 };
export type Label = { x: number; y: number; mm: number };
export type Seen = { picked: string | null; hidden: ReadonlySet<string>; apart: number; section: number; section_axis: Axis; dimensions: boolean; figure: boolean; chair: boolean };
export type Colours = { ground: string; pencil: string; accent: string };

/** How broad a board is across its grain. */
function broadness(geometry: BufferGeometry, part: SolidPart): number {
  geometry.computeBoundingBox();
  const size = geometry.boundingBox?.getSize(new Vector3()).toArray() ?? [0, 0, 0];
  return Math.max(...size.map((one, at) => (Math.abs(part.grain[at] ?? 0) > 0.9 ? 0 : one)));
}

export class SolidView {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(32, 1, 10, 60000);
  private readonly controls: OrbitControls;
  private readonly root = new Group();
  private readonly marks = new Group();
  private readonly cut = new Plane(new Vector3(-1, 0, 0), 0);
  private readonly pencil = new LineBasicMaterial({ color: 0x26282b });
  private readonly paper = new MeshBasicMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 });
  private readonly accent = new LineBasicMaterial({ color: 0x0a4f5a });
  private shown: Shown[] = [];
  private box = new Box3();
  private seen: Seen = { picked: null, hidden: new Set(), apart: 0, section: 0, section_axis: 'x', dimensions: false, figure: false, chair: false };
  private waiting = false;
  private placed = false;
  private ends: Array<[Vector3, Vector3]> = [];
  private readonly watcher: ResizeObserver;

  /** Throws where there is no WebGL. */
  constructor(private readonly place: HTMLElement, private readonly on_pick: (path: string | null) => void, private readonly on_labels: (labels: Label[]) => void) {
    this.renderer = new WebGLRenderer({ antialias: true, preserveDrawingBuffer: location.hash === '#keep-picture' });
    this.renderer.setPixelRatio(Math.min(devicePixelRatio, 2));
    place.prepend(this.renderer.domElement);
    this.renderer.domElement.setAttribute('aria-hidden', 'true');
    this.camera.up.set(0, 0, 1);
    const [sun, fill] = [new DirectionalLight(0xffffff, 2.0), new DirectionalLight(0xffffff, 0.7)];
    sun.position.set(-0.55, -1, 1.3);
    fill.position.set(1, -0.3, 0.2);
    this.scene.add(new AmbientLight(0xffffff, 1.7), sun, fill, this.root, this.marks);
    this.controls = new OrbitControls(this.camera, this.renderer.domElement);
    this.controls.enableDamping = false;
    this.controls.addEventListener('change', () => this.draw());
    this.renderer.domElement.addEventListener('pointerdown', (event) => this.press(event));
    this.watcher = new ResizeObserver(() => this.fit());
    this.watcher.observe(place);
    this.fit();
  }

  colours({ ground, pencil, accent }: Colours): void {
    this.scene.background = new Color(ground);
    this.paper.color = new Color(ground);
    this.pencil.color = new Color(pencil);
    this.accent.color = new Color(accent);
    this.draw();
  }

  load(buffer: ArrayBuffer): void {
    const solids = unpacked(buffer);
    for (const one of this.shown) this.drop(one);
    this.shown = solids.head.parts.map((part) => this.make(solids, part));
    this.box = new Box3();
    // Pulls stand out in front of the size that is written.
    for (const one of this.shown) if (one.part.material !== 'fitting') this.box.union(this.box_of(one, one.home));
    if (!this.placed) this.look_from('corner');
    this.placed = true;
    this.place.dataset['loaded'] = String(Number(this.place.dataset['loaded'] ?? 0) + 1);
    this.show(this.seen);
  }

  private make(solids: Solids, part: SolidPart): Shown {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(solids.places.subarray(part.v0 * 3, (part.v0 + part.nv) * 3), 3));
    geometry.setAttribute('normal', new BufferAttribute(solids.normals.subarray(part.v0 * 3, (part.v0 + part.nv) * 3), 3));
    geometry.setIndex(new BufferAttribute(solids.corners.subarray(part.i0, part.i0 + part.ni), 1));
    const grained = part.material === 'solid' || part.material === 'sheet';
    const mesh = new Mesh(geometry, wood_material(part.colour, part.grain, (part.index * 0.6180339) % 1, grained, broadness(geometry, part)));
    const edges = new LineSegments(new EdgesGeometry(geometry, 22), this.pencil);
    mesh.matrixAutoUpdate = edges.matrixAutoUpdate = false;
    this.root.add(mesh, edges);
    return { part, mesh, edges, home: new Matrix4().fromArray(part.m) };
  }

  private drop(one: Shown): void {
    this.root.remove(one.mesh, one.edges);
    one.mesh.geometry.dispose();
    one.mesh.material.dispose();
    one.edges.geometry.dispose();
  }

  private box_of(one: Shown, matrix: Matrix4): Box3 {
    one.mesh.geometry.computeBoundingBox();
    return (one.mesh.geometry.boundingBox ?? new Box3()).clone().applyMatrix4(matrix);
  }

  show(seen: Seen): void {
    const stands_up = (seen.figure !== this.seen.figure || seen.chair !== this.seen.chair) && this.placed;
    this.seen = seen;
    const size = this.box.getSize(new Vector3());
    const step = seen.apart * 0.14 * Math.max(size.x, size.y, size.z);
    this.renderer.localClippingEnabled = seen.section > 0;
    this.place_cut(seen.section_axis, seen.section);
    const planes = seen.section > 0 ? [this.cut] : [];
    this.pencil.clippingPlanes = this.accent.clippingPlanes = planes;
    for (const one of this.shown) {
      const [x, y, z] = one.part.shift;
      const matrix = new Matrix4().makeTranslation((x ?? 0) * step, (y ?? 0) * step, (z ?? 0) * step).multiply(one.home);
      one.mesh.matrix.copy(matrix);
      one.edges.matrix.copy(matrix);
      const picked = one.part.path === seen.picked;
      one.mesh.visible = one.edges.visible = !seen.hidden.has(one.part.path);
      one.edges.material = picked ? this.accent : this.pencil;
      one.mesh.material.emissive = picked ? new Color(0x0a4f5a) : new Color(0);
      one.mesh.material.emissiveIntensity = 0.45;
      one.mesh.material.clippingPlanes = planes;
      one.mesh.material.side = seen.section > 0 ? 2 : 0;
    }
    this.mark();
    if (stands_up) this.look_from('corner');
    this.draw();
  }

  /** Taken away from the right, from the front, or from the top. */
  private place_cut(axis: Axis, share: number): void {
    const size = this.box.getSize(new Vector3());
    if (axis === 'x') this.cut.set(new Vector3(-1, 0, 0), this.box.max.x - share * size.x);
    else if (axis === 'y') this.cut.set(new Vector3(0, 1, 0), -(this.box.min.y + share * size.y));
    else this.cut.set(new Vector3(0, 0, -1), this.box.max.z - share * size.z);
  }

  /** Dimension lines of the picked part, else of the whole piece; the standing figure, the chair. */
  private mark(): void {
    for (const one of this.marks.children) if (one instanceof Mesh || one instanceof LineSegments || one instanceof LineLoop) (one.geometry as BufferGeometry).dispose();
    this.marks.clear();
    this.ends = [];
    if (this.box.isEmpty()) return;
    const picked = this.shown.find((one) => one.part.path === this.seen.picked);
    const box = picked ? this.box_of(picked, picked.mesh.matrix) : this.box;
    if (this.seen.dimensions) this.dimension(box);
    if (this.seen.figure) this.stand_figure();
    if (this.seen.chair) this.stand_chair();
  }

  private dimension(box: Box3): void {
    const { min, max } = box;
    const off = 0.05 * this.box.getSize(new Vector3()).length();
    const at = (x: number, y: number, z: number) => new Vector3(x, y, z);
    this.ends = [
      [at(min.x, min.y - off, min.z), at(max.x, min.y - off, min.z)],
      [at(max.x + off, min.y, min.z), at(max.x + off, max.y, min.z)],
      [at(min.x - off, min.y - off * 0.3, min.z), at(min.x - off, min.y - off * 0.3, max.z)],
    ];
    const points = this.ends.flatMap(([a, b]) => [a, b, ...this.ticks(a, b, off * 0.25)]);
    this.marks.add(new LineSegments(new BufferGeometry().setFromPoints(points), this.accent));
  }

  private ticks(a: Vector3, b: Vector3, long: number): Vector3[] {
    const slant = b.x !== a.x ? new Vector3(long, 0, long) : b.y !== a.y ? new Vector3(0, long, long) : new Vector3(long, 0, long);
    return [a, b].flatMap((end) => [end.clone().sub(slant), end.clone().add(slant)]);
  }

  private figure_points(): Vector3[] {
    const x = this.box.min.x - 420;
    return kFigure.map(([right, up]) => new Vector3(x + right, (this.box.min.y + this.box.max.y) / 2, this.box.min.z + up));
  }

  private figure_box(): Box3 {
    return new Box3().setFromPoints(this.figure_points());
  }

  private stand_figure(): void {
    this.marks.add(new LineLoop(new BufferGeometry().setFromPoints(this.figure_points()), this.pencil));
  }

  /** Beside the piece, beyond the person when there is one. */
  private chair_blocks(): Box3[] {
    const middle = new Vector3(this.box.min.x - (this.seen.figure ? 1000 : 450), (this.box.min.y + this.box.max.y) / 2, this.box.min.z);
    return kChair.map(({ at, size }) => {
      const low = middle.clone().add(new Vector3(...at));
      return new Box3(low, low.clone().add(new Vector3(...size)));
    });
  }

  private stand_chair(): void {
    for (const block of this.chair_blocks()) {
      const size = block.getSize(new Vector3());
      const mesh = new Mesh(new BoxGeometry(size.x, size.y, size.z), this.paper);
      const edges = new LineSegments(new EdgesGeometry(mesh.geometry), this.pencil);
      for (const one of [mesh, edges]) { one.position.copy(block.getCenter(new Vector3())); this.marks.add(one); }
    }
  }

  private whole_box(): Box3 {
    const box = this.box.clone();
    if (this.seen.figure) box.union(this.figure_box());
    if (this.seen.chair) for (const block of this.chair_blocks()) box.union(block);
    return box;
  }

  look_from(where: 'corner' | 'front' | 'side' | 'top'): void {
    const way = { corner: [-0.55, -1, 0.42], front: [0, -1, 0.02], side: [1, -0.001, 0.02], top: [0, -0.02, 1] }[where];
    this.aim(this.whole_box(), new Vector3(...way));
  }

  zoom_to(path: string): void {
    const one = this.shown.find((shown) => shown.part.path === path);
    if (one) this.aim(this.box_of(one, one.mesh.matrix), this.camera.position.clone().sub(this.controls.target));
  }

  private aim(box: Box3, way: Vector3): void {
    const middle = box.getCenter(new Vector3());
    const radius = box.getSize(new Vector3()).length() / 2;
    const narrow = Math.min(1, this.camera.aspect);
    const distance = (radius / Math.sin((this.camera.fov * Math.PI) / 360)) * (1.02 / narrow);
    this.camera.position.copy(middle).add(way.normalize().multiplyScalar(distance));
    this.controls.target.copy(middle);
    this.controls.update();
    this.draw();
  }

  /** Turning by keys: right and up in steps. */
  turn(right: number, up: number): void {
    const offset = this.camera.position.clone().sub(this.controls.target);
    const distance = offset.length();
    const turn = Math.atan2(offset.y, offset.x) + right * 0.15;
    const lift = Math.min(1.5, Math.max(-1.4, Math.asin(offset.z / distance) + up * 0.12));
    offset.set(Math.cos(turn) * Math.cos(lift), Math.sin(turn) * Math.cos(lift), Math.sin(lift)).multiplyScalar(distance);
    this.camera.position.copy(this.controls.target).add(offset);
    this.controls.update();
    this.draw();
  }

  nearer(factor: number): void {
    this.camera.position.sub(this.controls.target).multiplyScalar(factor).add(this.controls.target);
    this.controls.update();
    this.draw();
  }

  /** A press that did not turn the piece picks. */
  private press(down: PointerEvent): void {
    const canvas = this.renderer.domElement;
    const up = (event: PointerEvent) => {
      canvas.removeEventListener('pointerup', up);
      if (Math.hypot(event.clientX - down.clientX, event.clientY - down.clientY) < 5) this.pick(event);
    };
    canvas.addEventListener('pointerup', up);
  }

  private pick(event: PointerEvent): void {
    const frame = this.renderer.domElement.getBoundingClientRect();
    const at = new Vector2(((event.clientX - frame.left) / frame.width) * 2 - 1, 1 - ((event.clientY - frame.top) / frame.height) * 2);
    const ray = new Raycaster();
    ray.setFromCamera(at, this.camera);
    const visible = this.shown.filter((one) => one.mesh.visible);
    const hit = ray.intersectObjects(visible.map((one) => one.mesh), false)
      .find((one) => this.seen.section === 0 || this.cut.distanceToPoint(one.point) >= 0);
    this.on_pick(visible.find((one) => one.mesh === hit?.object)?.part.path ?? null);
  }

  private fit(): void {
    const { clientWidth: width, clientHeight: height } = this.place;
    if (width === 0 || height === 0) return;
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  private draw(): void {
    if (this.waiting) return;
    this.waiting = true;
    requestAnimationFrame(() => {
      this.waiting = false;
      const began = performance.now();
      this.draw_now();
      this.place.dataset['took'] = (performance.now() - began).toFixed(2);
      this.on_labels(this.labels());
      this.place.dataset['drawn'] = String(Number(this.place.dataset['drawn'] ?? 0) + 1);
    });
  }

  draw_now(): void {
    this.renderer.render(this.scene, this.camera);
  }

  private labels(): Label[] {
    const { clientWidth: width, clientHeight: height } = this.place;
    return this.ends.map(([a, b]) => {
      const middle = a.clone().add(b).multiplyScalar(0.5).project(this.camera);
      return { x: ((middle.x + 1) / 2) * width, y: ((1 - middle.y) / 2) * height, mm: a.distanceTo(b) };
    });
  }

  dispose(): void {
    this.watcher.disconnect();
    for (const one of this.shown) this.drop(one);
    this.controls.dispose();
    this.renderer.dispose();
    this.renderer.domElement.remove();
  }
}
