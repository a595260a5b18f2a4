import django.db.models.functions.text
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = []

    operations = [
        migrations.CreateModel(
            name="Person",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("password", models.CharField(max_length=128, verbose_name="password")),
                ("last_login", models.DateTimeField(blank=True, null=True, verbose_name="last login")),
                (
                    "email",
                    models.EmailField(
                        error_messages={"unique": "There is already a person with this e-mail address."},
                        max_length=254,
                        unique=True,
                    ),
                ),
                ("name", models.CharField(blank=True, max_length=200)),
                ("is_active", models.BooleanField(default=True)),
            ],
            options={
                "verbose_name_plural": "people",
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("email", django.db.models.functions.text.Lower("email"))),
                        name="person_email_in_lower_case",
                    )
                ],
            },
        ),
    ]
