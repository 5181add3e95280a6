// SPDX-License-Identifier: MIT
// A ceiling that slopes: two values that mean nothing apart, put in and taken away together.

import { at } from '../api/paths';
import { edit, survey } from '../state/job';
import { words } from '../words';
import { Sentence } from './sentence';

const text = words.given;
const path = ['room', 'ceiling-slope'];

export function Slope() {
    const slope = at(survey.value, path);
    const height = at(survey.value, ['room', 'ceiling']);
    if (slope === undefined && height === undefined) return null;
    return (
        <ul class="entries">
            {slope === undefined ? (
                <li class="adding">
                    {/* as low as it is high, which is level, until another height is typed */}
                    <button type="button" class="quiet" onClick={() => void edit([{ path, value: { wall: 1, low: height! } }])}>
                        + {text.add(text.slopes)}
                    </button>
                </li>
            ) : (
                <li>
                    <Sentence text={text.slope} />
                    <button type="button" class="drop" aria-label={text.level} title={text.level} onClick={() => void edit([{ path, remove: true }])}>
                        ×
                    </button>
                </li>
            )}
        </ul>
    );
}
