"""Plugins from the core's side: manifests, discovery, hook specifications, the guarded host.

Raise the hook level with every change of the specifications.
"""
