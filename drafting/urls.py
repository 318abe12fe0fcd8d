app_name = "drafting"
urlpatterns = []
