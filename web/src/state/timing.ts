// SPDX-License-Identifier: MIT
// When an edit was made and when its picture stood, for measuring; costs one mark an edit.

let seen = 0;

/** A frame of a revision was drawn. */
export function markDrawn(revision: number | undefined): void {
    if (revision === undefined || revision === seen) return;
    seen = revision;
    performance.mark(`drawn ${revision}`);
}
