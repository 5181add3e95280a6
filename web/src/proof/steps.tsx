// SPDX-License-Identifier: MIT
// A derivation: what is said, the formula, the figures put in, what comes out.

import type { Given, Step } from '../api/types';
import { print } from '../units/print';
import { words } from '../words';

const figure = (one: Given) =>
    one.text ?? (typeof one.value === 'number' ? print({ value: one.value, unit: one.unit }) : `${one.value} ${one.unit === '1' ? '' : one.unit}`);

function Row({ one, result }: { one: Given; result?: boolean }) {
    return (
        <tr class={result ? 'result' : undefined}>
            <th scope="row">{one.symbol ?? ''}</th>
            <td>{one.meaning}</td>
            <td class="num">{figure(one)}</td>
        </tr>
    );
}

export function Steps({ steps }: { steps: Step[] }) {
    return (
        <ol class="steps">
            {steps.map((step, index) => (
                <li key={index}>
                    {step.says && <p>{step.says}</p>}
                    {step.formula && <p class="formula">{step.formula}</p>}
                    {(step.given?.length || step.result) && (
                        <table class="figures">
                            <thead class="unseen">
                                <tr>
                                    <th scope="col">{words.proof.symbol}</th>
                                    <th scope="col">{words.proof.meaning}</th>
                                    <th scope="col">{words.proof.figure}</th>
                                </tr>
                            </thead>
                            <tbody>
                                {step.given?.map((one, n) => <Row key={n} one={one} />)}
                                {step.result && <Row one={step.result} result />}
                            </tbody>
                        </table>
                    )}
                </li>
            ))}
        </ol>
    );
}
