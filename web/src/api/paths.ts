// SPDX-License-Identifier: MIT
// Places in a survey: ["room", "door", 0, "width"], written room.door.0.width.

import type { Json, Path } from './types';

export const key = (path: Path): string => path.join('.');

export const place = (text: string): Path => text.split('.').map((part) => (/^\d+$/.test(part) ? Number(part) : part));

/** What stands at a path, or undefined. */
export function at(tree: Json | undefined, path: Path): Json | undefined {
    let node: Json | undefined = tree;
    for (const part of path) {
        if (node === null || typeof node !== 'object') return undefined;
        node = (node as { [k: string]: Json })[part as string];
    }
    return node;
}

/** A copy of the tree with the value at a path changed; tables on the way are made. */
export function put(tree: Json, path: Path, value: Json | undefined): Json {
    const [head, ...rest] = path;
    if (head === undefined) return value as Json;
    const copy: any = Array.isArray(tree) ? [...tree] : { ...(tree as object) };
    if (rest.length === 0 && value === undefined) {
        if (Array.isArray(copy)) copy.splice(head as number, 1);
        else delete copy[head];
        return copy;
    }
    copy[head] = put(copy[head] ?? {}, rest, value);
    return copy;
}
