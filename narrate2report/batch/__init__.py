"""Many recordings: which of them have no record yet, and where the work on them is done.

    places ──▶ what lies where ──plan──▶ tasks ──runner──▶ outcomes
                                                  ├─ local: each in a process of its own on this machine
                                                  └─ cluster: on the workers of a Dask scheduler

What is done with a task is given to the runner by whoever starts it: both runners do the same work.
"""
