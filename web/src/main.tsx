// SPDX-License-Identifier: MIT
import { render } from 'preact';
import { Desk } from './frame/desk';
import { listen } from './frame/keys';
import { LineBanner } from './frame/line';
import { Jobs } from './jobs/jobs';
import { keepFollowing } from './state/live';
import { jobId } from './state/route';

function Page() {
    return (
        <>
            <LineBanner />
            {jobId.value ? <Desk /> : <Jobs />}
        </>
    );
}

listen();
keepFollowing();
render(<Page />, document.getElementById('page')!);
