// Wood as one draws it: the colour of the species, and lines of grain that run along the board,
// close into arcs at its ends, and belong to that board alone. Reckoned, not photographed.
import { Color, MeshLambertMaterial, Vector3 } from 'three';

const kHead = /* glsl */ `
varying vec3 vOwn;
uniform vec3 uGrain;
uniform float uSeed;
uniform float uGrained;
uniform float uSpacing;
`;

const kLines = /* glsl */ `
{
  float along = dot(vOwn, uGrain);
  vec3 across = vOwn - uGrain * along;
  vec3 heart = vec3(37.0 + 60.0 * fract(uSeed * 7.31), -41.0 - 55.0 * fract(uSeed * 3.17), 29.0 + 70.0 * fract(uSeed * 5.93));
  heart -= uGrain * dot(heart, uGrain);
  float wave = 5.0 * sin(along * 0.006 + uSeed * 6.0) + 2.2 * sin(along * 0.017 + uSeed * 17.0);
  float ring = (length(across - heart) + wave) / uSpacing;
  float width = max(fwidth(ring), 0.001);
  float line = 1.0 - smoothstep(0.07, 0.07 + 1.6 * width, abs(fract(ring) - 0.5));
  float far = 1.0 - smoothstep(0.35, 0.9, width);
  diffuseColor.rgb *= 1.0 - uGrained * far * 0.2 * line * (0.65 + 0.35 * sin(ring * 2.1 + uSeed * 9.0));
}
`;

// Where a section opens a board one looks at its inside: that is the cut, flat and darker.
const kCut = /* glsl */ `
if (!gl_FrontFacing) gl_FragColor = vec4(diffuse * 0.55, 1.0);
`;

export function wood_material(colour: readonly number[], grain: readonly number[], seed: number, grained: boolean, broad: number): MeshLambertMaterial {
  const material = new MeshLambertMaterial({ color: new Color(colour[0] ?? 0.8, colour[1] ?? 0.7, colour[2] ?? 0.5) });
  // Crayon on paper, not stain: a fifth of the paper shows through.
  material.color.lerp(new Color(1, 1, 1), 0.2).convertSRGBToLinear();
  material.onBeforeCompile = (shader) => {
    shader.uniforms['uGrain'] = { value: new Vector3(...grain) };
    shader.uniforms['uSeed'] = { value: seed };
    // Wide boards show wider figure; a finer one would run together at a distance.
    shader.uniforms['uSpacing'] = { value: Math.min(26, Math.max(7, broad / 16)) };
    shader.uniforms['uGrained'] = { value: grained ? 1 : 0 };
    shader.vertexShader = shader.vertexShader
      .replace('#include <common>', '#include <common>\nvarying vec3 vOwn;')
      .replace('#include <begin_vertex>', '#include <begin_vertex>\nvOwn = position;');
    shader.fragmentShader = shader.fragmentShader
      .replace('#include <common>', `#include <common>${kHead}`)
      .replace('#include <color_fragment>', `#include <color_fragment>${kLines}`)
      .replace('#include <opaque_fragment>', `#include <opaque_fragment>${kCut}`);
  };
  return material;
}
