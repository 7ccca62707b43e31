from django.urls import path

from . import views

urlpatterns = [
    path("sign-in/<str:name>", views.sign_in),
    path("table", views.table),
    path("bags/<str:bag>", views.bag),
    path("bags/<str:bag>/count", views.count),
]
