// SPDX-License-Identifier: MIT
// Two candidates line by line.

import { signal, useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Lost } from '../api/client';
import type { Candidate, View } from '../api/types';
import { words } from '../words';
import { Ending } from '../proof/status';
import { candidateView } from './follow';
import { differing, lines } from './lines';
import { heaterTitle, layoutTitle } from './names';
import { candidateKey } from './rank';

const text = words.choice;
export const comparing = signal<[Candidate, Candidate] | null>(null);

export function Compare() {
    const pair = comparing.value!;
    const views = useSignal<[View, View] | null>(null);
    const wrong = useSignal('');
    useEffect(() => {
        views.value = null;
        Promise.all(pair.map(candidateView)).then(
            (found) => (views.value = found as [View, View]),
            (error) => (wrong.value = error instanceof Lost ? words.line.lost : error.message),
        );
    }, [candidateKey(pair[0]), candidateKey(pair[1])]);
    const both = views.value;
    return (
        <div class="compare" data-compare>
            <p class="acts">
                <b>{text.compareTitle}</b>
                <button type="button" class="act" onClick={() => (comparing.value = null)}>
                    {text.close}
                </button>
            </p>
            {wrong.value && <p class="complaint">{wrong.value}</p>}
            {!both && !wrong.value && <p class="quiet-note">{text.comparing}</p>}
            {both && (
                <table class="rows">
                    <thead>
                        <tr>
                            <th scope="col"><span class="unseen">{text.lines.title}</span></th>
                            {pair.map((one) => (
                                <th scope="col" class="num" key={candidateKey(one)}>
                                    {layoutTitle(one.layout)}
                                    <br />
                                    <span class="soft">{heaterTitle(one.heater)}</span>
                                </th>
                            ))}
                            <th scope="col" class="num">{text.difference}</th>
                        </tr>
                    </thead>
                    <tbody>
                        {lines(...both).map((line) => (
                            <tr key={line.name} class={line.by ? 'differs' : undefined}>
                                <th scope="row">{line.name}</th>
                                <td class="num">{line.a}</td>
                                <td class="num">{line.b}</td>
                                <td class="num">{line.by}</td>
                            </tr>
                        ))}
                        <tr class="between">
                            <th scope="rowgroup" colSpan={4}>{text.onlyDiffer}</th>
                        </tr>
                        {differing(...both).map((one, index) => (
                            <tr key={index}>
                                <th scope="row">{one.title}</th>
                                {[one.a, one.b].map((check, n) => (
                                    <td class="num" key={n}>
                                        {check ? <Ending status={check.status} /> : <span class="soft">{text.absent}</span>}
                                    </td>
                                ))}
                                <td />
                            </tr>
                        ))}
                    </tbody>
                </table>
            )}
        </div>
    );
}
