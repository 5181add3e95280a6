// SPDX-License-Identifier: MIT
// From what was typed to an edit. The server judges; the page only gives numbers as numbers.

import type { Edit, Json, Path, SchemaNode } from '../api/types';
import { kindOf } from './schema';

/** The edit that typing `text` into a field asks for. Text that is no number goes as text, so that the server's word on it is heard. */
export function editOf(path: Path, text: string, node: SchemaNode | undefined): Edit {
    const plain = text.trim();
    if (plain === '') return { path, remove: true };
    const kind = kindOf(node);
    if (kind === 'flag') return { path, value: plain === 'true' };
    if (kind === 'whole' || kind === 'number') {
        const value = Number(plain.replace(/(?<=\d),(?=\d{3}\b)/g, ''));
        return { path, value: Number.isFinite(value) ? value : plain };
    }
    return { path, value: plain };
}

export const shown = (value: Json | undefined): string =>
    value === undefined || value === null ? '' : typeof value === 'object' ? '' : String(value);
