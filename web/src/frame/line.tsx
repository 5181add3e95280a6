// SPDX-License-Identifier: MIT
// The server is away: said calmly, with what waits for it.

import { lost } from '../state/line';
import { outbox } from '../state/outbox';
import { words } from '../words';

export function LineBanner() {
    return (
        <div class={`banner${lost.value ? ' up' : ''}`} role="status">
            {lost.value && (
                <p>
                    {words.line.lost} {outbox.value.length > 0 && <b>{words.line.waiting(outbox.value.length)}</b>}
                </p>
            )}
        </div>
    );
}
