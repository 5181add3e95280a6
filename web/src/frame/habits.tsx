// SPDX-License-Identifier: MIT
// Units and light: what the reader is used to.

import { light, units, type Light } from '../state/settings';
import { words } from '../words';

const text = words.frame;

export function Habits() {
    return (
        <div class="habits">
            <div role="group" aria-label={text.units} class="group">
                {(['us', 'si'] as const).map((one) => (
                    <button type="button" key={one} class="tool" aria-pressed={units.value === one} onClick={() => (units.value = one)}>
                        {text[one]}
                    </button>
                ))}
            </div>
            <select class="field" aria-label={text.light} value={light.value} onChange={(event) => (light.value = event.currentTarget.value as Light)}>
                {(Object.keys(text.lights) as Light[]).map((one) => (
                    <option key={one} value={one}>
                        {text.lights[one]}
                    </option>
                ))}
            </select>
        </div>
    );
}
