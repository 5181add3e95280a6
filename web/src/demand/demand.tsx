// SPDX-License-Identifier: MIT
// The demand: methods side by side, the day, the risk, and why this many heaters.

import { later } from '../parts';
import { view } from '../state/view';
import { percent, print } from '../units/print';
import { words } from '../words';

const text = words.demand;
const space = <div class="curve" style={{ minHeight: '170px' }} />;
const Day = later(() => import('./charts').then((found) => found.Day), space);
const Risk = later(() => import('./charts').then((found) => found.Risk), space);

export function Demand() {
    const demand = view.value?.demand;
    const capacity = view.value?.capacity;
    if (!demand) return <p class="quiet-note">{text.none}</p>;
    const most = Math.max(...demand.methods.map((one) => one.peak?.value ?? 0), 1e-9);
    return (
        <div class="demand">
            <section>
                <h3>{text.methods}</h3>
                <table class="rows">
                    <thead class="unseen">
                        <tr>
                            <th scope="col">{text.method}</th>
                            <th scope="col">{text.peak}</th>
                        </tr>
                    </thead>
                    <tbody>
                        {demand.methods.map((one) => {
                            const figure = one.peak ?? one.probable ?? one.possible;
                            return (
                                <tr key={one.id} class={one.governs ? 'here' : undefined}>
                                    <th scope="row">
                                        {one.title}
                                        {one.governs && <i class="tag">{text.governs}</i>}
                                        <br />
                                        <span class="soft">{one.says}</span>
                                    </th>
                                    <td class="num bar">
                                        {print(figure)}
                                        {one.peak && <i class="length" style={{ width: `${(one.peak.value / most) * 100}%` }} aria-hidden="true" />}
                                    </td>
                                </tr>
                            );
                        })}
                    </tbody>
                </table>
            </section>
            <section>
                <h3>{text.why}</h3>
                <p>{capacity?.says}</p>
                {demand.risk.length > 0 && (
                    <>
                        <h3>{text.risk}</h3>
                        <Risk risk={demand.risk} installed={view.value?.layout?.heaters} />
                        <details class="more">
                            <summary>{text.table}</summary>
                            <table class="rows">
                                <thead>
                                    <tr>
                                        <th scope="col">{text.heaters}</th>
                                        <th scope="col" class="num">{text.chance}</th>
                                    </tr>
                                </thead>
                                <tbody>
                                    {demand.risk.map((one) => (
                                        <tr key={one.heaters}>
                                            <th scope="row">{one.heaters}</th>
                                            <td class="num">{percent(one.chance)}</td>
                                        </tr>
                                    ))}
                                </tbody>
                            </table>
                        </details>
                    </>
                )}
                {demand.day && (
                    <>
                        <h3>{text.pattern}</h3>
                        <Day day={demand.day} />
                        <p class="soft">{demand.day.says}</p>
                    </>
                )}
            </section>
        </div>
    );
}
