// SPDX-License-Identifier: MIT
import { route } from '../state/route';
import { Check } from './check';
import { CheckList } from './list';
import { TrialCard } from './remedies';

export function Proof() {
    const id = route.value.check;
    return (
        <div class="proof">
            <TrialCard />
            {id ? <Check key={id} id={id} /> : <CheckList />}
        </div>
    );
}
