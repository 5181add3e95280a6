// SPDX-License-Identifier: MIT
// Where the plant is kept: by dragging, or typed.

import { at } from '../api/paths';
import { Field } from '../given/field';
import { nodeAt } from '../given/schema';
import { edit, survey, vocabulary } from '../state/job';
import { words } from '../words';
import { moving } from './tools';

const text = words.room;

/** The survey can say where the plant is kept. */
export const canPlace = () => nodeAt(vocabulary.value?.schema, ['preferences', 'place']) !== undefined;

export function Placing() {
    if (!canPlace()) return null;
    const kept = at(survey.value, ['preferences', 'place']) !== undefined;
    return (
        <div class="group placing">
            <button type="button" class="tool" aria-pressed={moving.value} title={text.moveHelp} onClick={() => (moving.value = !moving.value)}>
                {text.move}
            </button>
            {(moving.value || kept) && (
                <Field field="preferences.place" />
            )}
            {kept && (
                <button type="button" class="quiet" onClick={() => void edit([{ path: ['preferences', 'place'], remove: true }])}>
                    {text.moveAuto}
                </button>
            )}
        </div>
    );
}
