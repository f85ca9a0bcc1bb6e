// What may stand at a place, from the published schema of a commission.
import type { Place } from './place';

export type Schema = Record<string, unknown> & {
  $ref?: string; properties?: Record<string, Schema>; items?: Schema; anyOf?: Schema[]; oneOf?: Schema[]; allOf?: Schema[];
  enum?: unknown[]; const?: unknown; description?: string; additionalProperties?: Schema | boolean; $defs?: Record<string, Schema>;
};
export type Offer = { word: string; says: string; key: boolean };

/** A schema with all its ways, references followed. */
function ways(root: Schema, schema: Schema | undefined, depth = 0): Schema[] {
  if (!schema || depth > 6) return [];
  if (schema.$ref) {
    const name = schema.$ref.replace('#/$defs/', '');
    return ways(root, root.$defs?.[name], depth + 1);
  }
  const inner = [...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.allOf ?? [])];
  return [schema, ...inner.flatMap((one) => ways(root, one, depth + 1))];
}

function step(root: Schema, at: Schema[], key: string): Schema[] {
  return at.flatMap((schema) => {
    if (key === '[]') return ways(root, schema.items);
    const property = schema.properties?.[key];
    if (property) return ways(root, property);
    return typeof schema.additionalProperties === 'object' ? ways(root, schema.additionalProperties) : [];
  });
}

export function offers(root: Schema, place: Place): Offer[] {
  let at = ways(root, root);
  for (const key of place.path) at = step(root, at, key);
  const found = new Map<string, Offer>();
  if (place.key !== undefined) {
    for (const schema of step(root, at, place.key)) {
      for (const word of schema.enum ?? (schema.const === undefined ? [] : [schema.const])) {
        found.set(String(word), { word: String(word), says: schema.description ?? '', key: false });
      }
    }
  } else {
    for (const schema of at) {
      for (const [word, property] of Object.entries(schema.properties ?? {})) {
        if (!found.has(word)) found.set(word, { word, says: ways(root, property).map((one) => one.description).find(Boolean) ?? property.description ?? '', key: true });
      }
    }
  }
  return [...found.values()].filter((offer) => offer.word.startsWith(place.word));
}
