// SPDX-License-Identifier: MIT
// What the survey's schema says of a place.

import type { Path, SchemaNode } from '../api/types';

export type Kind = 'flag' | 'word' | 'whole' | 'number' | 'text' | 'quantity';

function follow(node: SchemaNode | undefined, root: SchemaNode): SchemaNode | undefined {
    if (!node?.$ref) return node;
    const name = node.$ref.replace('#/$defs/', '');
    return { ...root.$defs?.[name], description: node.description ?? root.$defs?.[name]?.description };
}

export function nodeAt(root: SchemaNode | undefined, path: Path): SchemaNode | undefined {
    let node: SchemaNode | undefined = root;
    for (const part of path) {
        if (!root || !node) return undefined;
        node = follow(node, root);
        node = typeof part === 'number' ? node?.items : node?.properties?.[part];
    }
    return root ? follow(node, root) : node;
}

export function kindOf(node: SchemaNode | undefined): Kind {
    if (node?.type === 'boolean') return 'flag';
    if (node?.enum) return 'word';
    if (node?.type === 'integer') return 'whole';
    if (node?.type === 'number') return 'number';
    return node?.pattern ? 'quantity' : 'text';
}

/** A sentence that says what the field takes, for people: description, and limits the description leaves out. */
export function helpOf(node: SchemaNode | undefined): string {
    if (!node) return '';
    const limits =
        node.minimum !== undefined && node.maximum !== undefined ? ` ${node.minimum}–${node.maximum.toLocaleString('en-US')}.` : '';
    return `${node.description ?? ''}${limits}`.trim();
}

/** The name of a field for who cannot see the sentence: its description's first clause. */
export function nameOf(node: SchemaNode | undefined, path: Path): string {
    const first = node?.description?.split(/[.;:]/)[0]?.trim();
    return first || path.slice(-2).join(' ').replace(/-/g, ' ');
}

/** "{supply.pressure}" and words between, cut apart. */
export function cut(sentence: string): (string | { field: string })[] {
    return sentence
        .split(/(\{[^}]+\})/)
        .filter(Boolean)
        .map((part) => (part.startsWith('{') ? { field: part.slice(1, -1) } : part));
}
