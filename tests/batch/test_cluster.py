"""The same tasks on a real scheduler with real workers: one of them is killed in the middle, and nothing is missing."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import dask
import fsspec
import pytest
from distributed import Client, LocalCluster, Security

from narrate2report.cli import main
from tests.intake.recordings import write_recording
from tests.journeys.test_recordings import AUDIO, spoken

NARRATIONS = Path(__file__).parents[1] / "narrations"
TRANSCRIPTS = ("n1_movein_apartment", "n2_checkout_flat", "n5_notes_movein")


@dataclass
class Cluster:
    """A scheduler and its workers, each a program of its own on this machine."""

    address: str
    workers: list[subprocess.Popen[bytes]]


def started(folder: Path, *words: str) -> subprocess.Popen[bytes]:
    with (folder / "log").open("ab") as log:
        command = [sys.executable, "-m", "dask", *words, "--scheduler-file", str(folder / "scheduler.json")]
        return subprocess.Popen(command, stdout=log, stderr=log)


@pytest.fixture
def cluster(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Cluster]:
    folder = tmp_path_factory.mktemp("cluster")
    running = [started(folder, "scheduler", "--host", "127.0.0.1", "--port", "0", "--no-dashboard")]
    try:
        wait_for(lambda: (folder / "scheduler.json").exists() and bool((folder / "scheduler.json").read_bytes()))
        address = json.loads((folder / "scheduler.json").read_bytes())["address"]
        quiet = ("--nthreads", "1", "--no-dashboard", "--no-nanny", "--host", "127.0.0.1", "--memory-limit", "0")
        running += [started(folder, "worker", *quiet) for _ in range(2)]
        yield Cluster(address, running[1:])
    finally:
        for process in reversed(running):
            process.kill()
            process.wait()


def wait_for(come: Callable[[], bool], seconds: float = 120.0) -> None:
    until = time.monotonic() + seconds
    while not come():
        assert time.monotonic() < until, "it did not come about"
        time.sleep(0.05)


def walks(folder: Path) -> Path:
    """A recording that is heard, transcripts, and a file that cannot be used."""
    folder.mkdir()
    write_recording(folder / "bath.m4a", AUDIO, spoken(37, 50))
    for name in TRANSCRIPTS:
        shutil.copyfile(NARRATIONS / f"{name}.txt", folder / f"{name}.txt")
    (folder / "bad.m4a").write_bytes(b"no sound in here" * 99)
    return folder


def made(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.suffix == ".json"}


def ask(folder: Path, *options: str) -> int:
    return main(["batch", str(folder), f"{folder}/*.txt", "--quiet", *options])


def pid_of_each(client: Client) -> dict[str, int]:
    return dict(client.run(os.getpid))


def test_all_is_there_and_the_same_after_a_worker_was_killed(
    tmp_path: Path, cluster: Cluster, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = walks(tmp_path / "here"), tmp_path / "there"
    shutil.copytree(here, there)
    assert ask(here, "--jobs", "2") == 2

    statuses: list[int] = []
    run = threading.Thread(target=lambda: statuses.append(ask(there, "--scheduler", cluster.address)))
    with Client(cluster.address, set_as_default=False) as client:
        wait_for(lambda: len(client.scheduler_info()["workers"]) == 2)
        pids = pid_of_each(client)
        run.start()
        # In the middle: something is done, and both have something in hand.
        wait_for(lambda: bool(made(there)) and all(client.processing().get(worker) for worker in pids))
        victim = next(process for process in cluster.workers if process.pid in pids.values())
        victim.send_signal(signal.SIGKILL)
        left = len(made(there))
        run.join(300)
        assert len(client.scheduler_info()["workers"]) == 1
    assert statuses == [2]
    assert left < len(made(here)) == 5
    assert made(there) == made(here)
    told_here, told_there = capsys.readouterr().out.splitlines()
    assert told_here.replace(str(here), str(there)) == told_there
    assert told_there.startswith(f"failed   {there}/bad.m4a: ")


CAPTIONS = "WEBVTT\n\n00:00.000 --> 00:03.000\nIn the kitchen.\n\n00:03.000 --> 00:07.000\nThe tap drips.\n"


@pytest.mark.parametrize("scheme", ["tcp", "tls"])
def test_files_at_an_address_are_drafted_over_an_open_and_a_closed_connection(
    scheme: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The worker is a thread of this process, so that both see the same memory."""
    files = fsspec.filesystem("memory")
    files.pipe_file("/backlog/walk.vtt", CAPTIONS.encode())
    keys: Any = Security.temporary() if scheme == "tls" else Security()
    told = {
        "distributed.comm.tls.ca-file": keys.tls_ca_file,
        "distributed.comm.tls.client.cert": keys.tls_client_cert,
        "distributed.comm.tls.client.key": keys.tls_client_key,
    }
    alone = {"n_workers": 1, "threads_per_worker": 1, "processes": False, "dashboard_address": None}
    with LocalCluster(**alone, protocol=f"{scheme}://", host="127.0.0.1", security=keys) as cluster:
        ask = ["batch", "memory://backlog/*.vtt", "--scheduler", cluster.scheduler_address]
        with dask.config.set(told):
            assert main([*ask, "--json"]) == 0
            outcome = json.loads(capsys.readouterr().out.splitlines()[0])
            assert main([*ask, "--json"]) == 0
            again = json.loads(capsys.readouterr().out.splitlines()[0])
    (tmp_path / "walk.vtt").write_text(CAPTIONS)
    assert main(["draft", str(tmp_path / "walk.vtt"), "--out", str(tmp_path / "walk.findings.json"), "--quiet"]) == 0
    assert files.cat_file("/backlog/walk.findings.json") == (tmp_path / "walk.findings.json").read_bytes()
    assert (outcome["became"], again["became"]) == ("drafted", "already")
    files.rm("/backlog", recursive=True)
