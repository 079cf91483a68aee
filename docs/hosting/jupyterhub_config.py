"""A class on JupyterHub: real accounts, each learner's server runs as that account, and the course opens in it.

    sh docs/hosting/add_learners.sh autumn
    jupyterhub --config docs/hosting/jupyterhub_config.py

Run as root, which starting servers as other accounts needs. A test starts a hub with this file as it stands.
"""

import sys
from pathlib import Path

CLASS = Path("/srv/clutch")
STATE, START, WORK = CLASS / "hub", CLASS / "start", CLASS / "work"
KEY, CERTIFICATE = STATE / "key.pem", STATE / "certificate.pem"

c = get_config()  # noqa: F821

# Passwords travel to this address. Without a certificate it is reached from this computer alone.
if CERTIFICATE.is_file():
    c.JupyterHub.bind_url = "https://:443"
    c.JupyterHub.ssl_key, c.JupyterHub.ssl_cert = str(KEY), str(CERTIFICATE)
else:
    c.JupyterHub.bind_url = "http://127.0.0.1:8000"

STATE.mkdir(mode=0o700, parents=True, exist_ok=True)
c.JupyterHub.db_url = f"sqlite:///{STATE / 'hub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(STATE / "cookie_secret")
c.ConfigurableHTTPProxy.pid_file = str(STATE / "proxy.pid")

# The passwords of the system, whoever keeps them: its own list or the college's directory. Nobody is the hub's administrator
# in the browser, and no learner may open the server of another.
c.JupyterHub.authenticator_class = "pam"
c.PAMAuthenticator.allowed_groups = {"clutch-class"}

# Each server runs with the rights of its learner's account: what separates the learners is the system itself.
c.JupyterHub.spawner_class = "jupyterhub.spawner.LocalProcessSpawner"
c.Spawner.cmd = [sys.executable, "-P", "-m", "bitepoint.workbook.hub", str(START), str(WORK)]
c.Spawner.environment = {"PYTHONSAFEPATH": "1"}
c.Spawner.start_timeout = c.Spawner.http_timeout = 120
# Thirty learners press the button at once; more than this many wait their turn.
c.JupyterHub.concurrent_spawn_limit = 10
