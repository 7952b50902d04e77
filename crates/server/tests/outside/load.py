#!/usr/bin/env python3
"""People editing at once, on loopback: time from the edit sent to the new plan read.

load.py PROGRAM [--people 50] [--seconds 300] [--pause 8] [--database ADDRESS]

Every person opens a job of their own (the invented example). When all have theirs, each changes one
length or temperature, waits for the answer, asks for the new plan and reads it whole, then pauses
about as long as a person looks at a result. Prints the times of edit, plan and both, and the memory of the server. Standard library
only; not run by any test, because it measures time.
"""
import argparse, asyncio, json, os, random, re, shutil, socket, subprocess, tempfile, time, uuid

HERE = os.path.dirname(os.path.abspath(__file__))
JOB = open(os.path.join(HERE, '../../../../jobs/lake-street/job.toml')).read()


class Line:
    """One kept connection, HTTP/1.1, as a browser keeps it."""

    def __init__(self, port):
        self.port, self.reader, self.writer = port, None, None

    async def ask(self, method, path, body=None):
        if self.writer is None:
            self.reader, self.writer = await asyncio.open_connection('127.0.0.1', self.port)
        data = b'' if body is None else json.dumps(body).encode()
        head = (f'{method} {path} HTTP/1.1\r\nhost: localhost:{self.port}\r\naccept-encoding: gzip\r\n'
                f'content-type: application/json\r\ncontent-length: {len(data)}\r\n\r\n')
        self.writer.write(head.encode() + data)
        await self.writer.drain()
        top = await self.reader.readuntil(b'\r\n\r\n')
        status = int(top.split(b' ', 2)[1])
        length = re.search(rb'content-length: (\d+)', top, re.I)
        if length:
            got = await self.reader.readexactly(int(length[1]))
        else:
            got = b''
            while True:
                size = int((await self.reader.readline()).strip() or b'0', 16)
                got += await self.reader.readexactly(size)
                await self.reader.readexactly(2)
                if size == 0:
                    break
        return status, got


def memory_mb(pid):
    text = open(f'/proc/{pid}/status').read()
    return int(re.search(r'VmRSS:\s+(\d+)', text)[1]) / 1024


def processor_s(pid):
    return sum(map(float, open(f'/proc/{pid}/stat').read().split()[13:15])) / os.sysconf('SC_CLK_TCK')


def share(times, p):
    times = sorted(times)
    return 1000 * times[min(len(times) - 1, int(p * len(times)))] if times else float('nan')


async def person(port, n, all_there, seconds, pause, times, wrong):
    chance = random.Random(n)
    line, job = Line(port), str(uuid.UUID(int=0x0192_f000_0000_7000_8000_0000_0000_0000 + n))
    status, got = await line.ask('POST', '/api/jobs', {'id': job, 'text': JOB, 'who': f'person {n}'})
    assert status == 201, got
    revision = 1
    await line.ask('GET', f'/api/jobs/{job}/plan')
    await all_there.wait()
    end = time.monotonic() + seconds
    await asyncio.sleep(chance.uniform(0, pause))
    while time.monotonic() < end:
        what = chance.choice([('room.living.heated_to', f'{chance.randint(66, 72)} F'),
                              ('leakage.blower_door', f'{chance.randint(900, 3000)} cfm at 50 Pa'),
                              ('room.kitchen.heated_to', f'{chance.randint(62, 72)} F')])
        begun = time.monotonic()
        status, got = await line.ask('POST', f'/api/jobs/{job}/changes', {
            'id': str(uuid.uuid4()), 'base_revision': revision, 'who': f'person {n}', 'edits': [{'path': what[0], 'value': what[1]}]})
        if status not in (200, 201):
            wrong.append(f'{what}: {status} {got[:300]!r}')
            await asyncio.sleep(pause)
            continue
        revision = json.loads(ungzip(got))['revision']
        kept = time.monotonic()
        status, got = await line.ask('GET', f'/api/jobs/{job}/plan')
        done = time.monotonic()
        if status != 200:
            wrong.append(f'plan: {status} {got[:300]!r}')
        times.append((kept - begun, done - kept, done - begun))
        await asyncio.sleep(max(0.0, chance.gauss(pause, pause / 4)))


def ungzip(b):
    import gzip
    return gzip.decompress(b) if b[:2] == b'\x1f\x8b' else b


async def main():
    a = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    a.add_argument('program')
    a.add_argument('--people', type=int, default=50)
    a.add_argument('--seconds', type=float, default=300)
    a.add_argument('--pause', type=float, default=8)
    a.add_argument('--database')
    o = a.parse_args()
    folder = tempfile.mkdtemp(prefix='northwall-load-')
    with socket.socket() as s:
        s.bind(('127.0.0.1', 0))
        port = s.getsockname()[1]
    more = ['--database', o.database] if o.database else []
    server = subprocess.Popen([o.program, 'serve', '--port', str(port), '--folder', folder, *more],
                              stdout=subprocess.DEVNULL)
    try:
        for _ in range(300):
            try:
                if (await Line(port).ask('GET', '/api/health'))[0] == 200:
                    break
            except OSError:
                await asyncio.sleep(0.1)
        times, wrong = [], []
        all_there = asyncio.Barrier(o.people + 1)
        opened = time.monotonic()
        all_of_them = asyncio.gather(*(person(port, n, all_there, o.seconds, o.pause, times, wrong) for n in range(o.people)))
        await all_there.wait()
        begun, opening = time.monotonic(), processor_s(server.pid)
        print(f'{o.people} jobs opened in {begun - opened:.1f} s', flush=True)
        marks = []
        while not all_of_them.done():
            await asyncio.sleep(min(30, max(1, o.seconds / 10)))
            marks.append(memory_mb(server.pid))
            print(f'{time.monotonic() - begun:5.0f} s  {len(times):6d} edits  {marks[-1]:5.0f} MB', flush=True)
        await all_of_them
        cpu = processor_s(server.pid) - opening
        print(f'{o.people} people, {o.seconds:.0f} s, {len(times)} edits, {len(wrong)} refused; {cpu / max(1, len(times)) * 1000:.0f} ms of processor an edit')
        for name, i in (('edit', 0), ('plan', 1), ('edit to new plan', 2)):
            part = [t[i] for t in times]
            print(f'{name:17s} p50 {share(part, 0.5):6.0f} ms   p99 {share(part, 0.99):6.0f} ms   most {share(part, 1):6.0f} ms')
        print(f'memory first {marks[0]:.0f} MB, last {marks[-1]:.0f} MB')
        for w in wrong[:3]:
            print(w)
    finally:
        server.terminate()
        server.wait(20)
        shutil.rmtree(folder, ignore_errors=True)


asyncio.run(main())
