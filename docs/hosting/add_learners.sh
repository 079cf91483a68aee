#!/bin/sh
# An account and a course folder for each learner of a class folder, before the hub is started or while it runs. As root:
#
#   sh docs/hosting/add_learners.sh autumn
#
# The account is the learner's id in small letters. A new one gets a password, which is printed this once; whoever has it can
# change it by the command passwd. An account that is there already, from the college's directory or from the last time, is
# taken as it is.
set -eu
class=${1:?"say which class folder: sh add_learners.sh autumn"}
top=/srv/clutch

for group in clutch-class clutch-staff; do
    getent group "$group" >/dev/null || groupadd "$group"
done
# The staff lists the folders of the learners; a learner passes through to the own one.
install -d -m 0755 "$top"
install -d -m 0700 "$top/hub"
install -d -m 0711 "$top/start"
install -d -g clutch-staff -m 0751 "$top/work"

for file in "$class"/start/*.toml; do
    [ -f "$file" ] || { echo "$class/start has no start files. Make them: bitepoint class renew $class" >&2; exit 2; }
    account=$(basename "$file" .toml | tr '[:upper:]' '[:lower:]')
    said="has its password"
    if ! uid=$(id -u "$account" 2>/dev/null); then
        useradd --create-home --key HOME_MODE=0700 --shell /bin/bash "$account"
        # No letter or figure that is taken for another.
        password=$(tr -dc 'a-hjkmnp-z2-9' </dev/urandom | head -c 10)
        echo "$account:$password" | chpasswd
        said="password $password"
    elif [ "$uid" -lt 1000 ]; then
        echo "$account is an account of the system itself. Give the learner another id." >&2
        exit 2
    fi
    usermod --append --groups clutch-class "$account"
    install -g clutch-class -m 0440 "$file" "$top/start/$account.toml"
    # The letter s: what the learner makes in it belongs to the group of the staff, which may read it.
    install -d -o "$account" -g clutch-staff -m 2750 "$top/work/$account"
    echo "$account $said"
done
