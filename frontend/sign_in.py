"""Signing in by e-mail address and password, and a new password by mail. Nobody signs up: the team makes people."""

from __future__ import annotations

from typing import Any

from allauth.account.adapter import DefaultAccountAdapter, get_adapter
from allauth.account.forms import LoginForm, ResetPasswordForm, ResetPasswordKeyForm
from django.http import HttpRequest

__all__ = ["LostPasswordForm", "NewPasswordForm", "NoSignUp", "SignInForm"]


class NoSignUp(DefaultAccountAdapter):
    error_messages = {
        **DefaultAccountAdapter.error_messages,
        "email_password_mismatch": "This e-mail address and this password do not belong together.",
        "too_many_login_attempts": "Too many wrong passwords. Wait five minutes, or ask for a new password.",
        "invalid_password_reset": "This link has been used, or is too old. Ask for a new one.",
    }

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False


class SignInForm(LoginForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _say(self, login="E-mail address", password="Password", remember="Stay signed in on this device")
        self.fields["password"].help_text = ""
        self.fields["login"].widget.attrs["autofocus"] = True


class LostPasswordForm(ResetPasswordForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _say(self, email="E-mail address")

    def save(self, request: HttpRequest, **kwargs: Any) -> str:
        """Mail the link, or that there is no such account: in both cases somebody who watches sees the same, and waits
        as long."""
        email: str = self.cleaned_data["email"]
        if not self.users:
            get_adapter().send_mail("account/email/unknown_account", email, {})
            return email
        super().save(request, **kwargs)
        return email


class NewPasswordForm(ResetPasswordKeyForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        _say(self, password1="New password", password2="The same again")


def _say(form: Any, **labels: str) -> None:
    form.label_suffix = ""
    for name, label in labels.items():
        form.fields[name].label = label
        # A placeholder vanishes when it is needed: while typing.
        form.fields[name].widget.attrs.pop("placeholder", None)
