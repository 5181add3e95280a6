// SPDX-License-Identifier: MIT
// Where the plant meets the building.

import { at, key } from '../api/paths';
import { job, survey } from '../state/job';
import { words } from '../words';
import { Confirm } from './field';
import { Sentence } from './sentence';

const text = words.given;

export function Connections() {
    return (
        <ul class="entries">
            {Object.entries(text.connections).map(([name, said]) => {
                const given = at(survey.value, ['connections', name, 'at']);
                const assumed = job.value?.assumed.find((one) => key(one.path).startsWith(`connections.${name}`));
                if (!given && !assumed) return null;
                return (
                    <li key={name}>
                        <b>{said}</b> {given ? <Sentence text={text.connection} base={`connections.${name}`} entry={said} /> : null}
                        {!given && assumed && (
                            <>
                                <span class="soft">
                                    {assumed.value}; {text.connectionAssumed}{' '}
                                </span>
                                <Confirm assumed={assumed} name={said} />
                            </>
                        )}
                    </li>
                );
            })}
        </ul>
    );
}
