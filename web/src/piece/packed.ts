// Reading the packed solids (docs/server.md): a head of JSON, then places, normals and corners.
import type { SolidsHead } from '../api/server';

export type Solids = { head: SolidsHead; places: Float32Array; normals: Float32Array; corners: Uint32Array };

export function unpacked(buffer: ArrayBuffer): Solids {
  const length = new DataView(buffer).getUint32(0, true);
  const head = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 4, length))) as SolidsHead;
  const from = 4 + length;
  return {
    head,
    places: new Float32Array(buffer, from, head.nv * 3),
    normals: new Float32Array(buffer, from + head.nv * 12, head.nv * 3),
    corners: new Uint32Array(buffer, from + head.nv * 24, head.ni),
  };
}
