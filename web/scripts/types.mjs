// Writes src/api/plan.ts and src/api/server.ts from the schemas in docs/, so that no shape of an
// answer is typed twice. Knows the part of JSON Schema that those two files use.
import { readFileSync, writeFileSync } from 'node:fs';

const docs = new URL('../../docs/', import.meta.url);
const api = new URL('../src/api/', import.meta.url);
const read = (name) => JSON.parse(readFileSync(new URL(name, docs), 'utf8'));
const camel = (name) => name.replace(/(^|_)([a-z])/g, (_, __, letter) => letter.toUpperCase());

function referred(reference) {
  if (reference === 'plan.schema.json') return 'Plan';
  const item = reference.match(/^plan\.schema\.json#(.*)\/items$/);
  if (item) {
    const keys = item[1].split('/').filter((word) => word && word !== 'properties');
    return `Plan${keys.map((key) => `['${key}']`).join('')}[number]`;
  }
  return camel(reference.replace('#/$defs/', ''));
}

function typed(schema, indent = '') {
  if (schema.$ref) return referred(schema.$ref);
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.map((word) => JSON.stringify(word)).join(' | ');
  const either = schema.anyOf ?? schema.oneOf;
  if (either) return either.map((one) => typed(one, indent)).join(' | ');
  if (Array.isArray(schema.type)) return schema.type.map((type) => typed({ ...schema, type })).join(' | ');
  switch (schema.type) {
    case 'integer':
    case 'number': return 'number';
    case 'string': return 'string';
    case 'boolean': return 'boolean';
    case 'null': return 'null';
    case 'array': return `Array<${typed(schema.items ?? {}, indent)}>`;
    case 'object': return object(schema, indent);
    default: return 'unknown';
  }
}

function object(schema, indent) {
  if (!schema.properties) {
    return `Record<string, ${typed(schema.additionalProperties || {}, indent)}>`;
  }
  const deeper = `${indent}  `;
  const required = new Set(schema.required ?? []);
  const lines = Object.entries(schema.properties).map(([key, value]) => {
    const says = value.description ? `${deeper}/** ${value.description} */\n` : '';
    return `${says}${deeper}${key}${required.has(key) ? '' : '?'}: ${typed(value, deeper)};`;
  });
  return `{\n${lines.join('\n')}\n${indent}}`;
}

function definitions(schema) {
  return Object.entries(schema.$defs)
    .map(([name, value]) => `export type ${camel(name)} = ${typed(value)};\n`)
    .join('\n');
}

const plan = read('plan.schema.json');
const head = (file) => `// Written by scripts/types.mjs from docs/${file}.\n`;
writeFileSync(new URL('plan.ts', api),
  `${head('plan.schema.json')}export type Plan = ${typed(plan)};\n\n${definitions(plan)}`);
writeFileSync(new URL('server.ts', api),
  `${head('api.schema.json')}import type { Plan } from './plan';\n\n${definitions(read('api.schema.json'))}`);
