BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 03:09:54.782018+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 03:09:54.794840+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 03:09:54.811109+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 03:09:54.825771+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 03:09:54.837749+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 03:09:54.841376+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 03:09:54.854639+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 03:09:54.867230+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 03:09:54.886327+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 03:09:54.900903+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 03:09:54.992594+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 03:09:55.009368+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 03:09:55.019953+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 03:09:55.034712+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 03:09:55.051374+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m029_sessions','2026-11-26 03:09:55.095513+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m030_sealed_facts','2026-11-26 03:09:55.113563+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m032_rights','2026-11-26 03:09:55.129590+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a215d4-c446-75f0-bf78-9ddcd46443b2','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','aa6785edcff6b24ac0e26140edb1e6fd321e1791d52ce2e2876f5697dcc03d20','[["staff", "01a215d4-c446-75f0-bf78-9ddcd46443b2", "950286772a0d5f1ef8a37db185553b219509541b58ba5185996eb9c6def22e6a"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a215d4-c458-72b8-a04c-6c2504007946','{"role":"surgeon"}','aa6785edcff6b24ac0e26140edb1e6fd321e1791d52ce2e2876f5697dcc03d20','6416360cfb53e9983ca64d361d9118f6956cb1e186c54b472294059d503805c0','[["staff", "01a215d4-c458-72b8-a04c-6c2504007946", "eab40b3c521942ec4630cf8e116df9222d29a51d992a4e24f0b76534de4d27e5"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','enrolment code','01a215d4-c462-7052-af64-f097ff3aec8b','null','6416360cfb53e9983ca64d361d9118f6956cb1e186c54b472294059d503805c0','8536889a35e2df5918fd1269022c8e7e7ab2c2f67c458b12bb0c3d0279bca00c','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','discharge','01a215d4-c463-771e-8aa5-235c9cf0f675','{"agent":"c2f6","eye":"right"}','8536889a35e2df5918fd1269022c8e7e7ab2c2f67c458b12bb0c3d0279bca00c','983ff51c4b5f334d5fbc6cd5ce475096ecfd321cf7baa9e72d1692d1caf58e4b','[["patients", "01a215d4-c462-7052-af64-f097ff3aec8b", "c209d3ed1ad0e5b3ab6dd289c44022a13c56e36b45165cff748490f2bf43f341"], ["eyes", "01a215d4-c463-771e-8aa5-235c9cf0f675", "06d665512a8c6665a4ebb22d63cce6e5f31fe60336504b8e33fda6fa4391beb5"], ["eyes", "01a215d4-c463-771e-8aa5-235d4d30645e", "cd8f65f65163e4e81236031078d5eb8e6ad486f86cbfda76995489b8ed61fd15"], ["operations", "01a215d4-c468-77ed-bb22-91c21ed67cf1", "9b15a789fda408176f1ddfa71d8b46b154bc1d62084b6e1af0b6d045bb66a65e"], ["operation_records", "01a215d4-c469-72e5-8d33-99fa4c65a9f4", "ae4f98475fb0c4d6bde7f88dd4030fe3ec3ed494ca99054fbd8070532f20b9eb"], ["visits", "01a215d4-c469-72e5-8d33-99fb8c7702a2", "a9bcf9b9089cad0bbce8b5f2e16b28ca0da1d97ec76640f18771370e806efa98"], ["visits", "01a215d4-c469-72e5-8d33-99fcb211ba2e", "7c0ac984c51486ccf74c1df1a7a110ac02c86fe7bc8850463805f62751aa9f84"], ["follow_ups", "01a215d4-c469-72e5-8d33-99fd587e1912", "96419f85772b853678ddecc71ddef8abb2085b074b6f12c8fb86b60f9f48157a"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','enrolment code','01a215d4-c47c-705a-ae86-4f02dae2a0fb','null','983ff51c4b5f334d5fbc6cd5ce475096ecfd321cf7baa9e72d1692d1caf58e4b','1800f0b05c2850a726c86029d6787b4f2d4a7c6ccd7d47ece469759b577cf464','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','discharge','01a215d4-c47c-705a-ae86-4f031388c4e9','{"agent":"silicone-oil","eye":"right"}','1800f0b05c2850a726c86029d6787b4f2d4a7c6ccd7d47ece469759b577cf464','45a03adc627f78642293c487569b4256376b3e32e70935c1314c741a8f123820','[["patients", "01a215d4-c47c-705a-ae86-4f02dae2a0fb", "cb33ab326d9117b3d2cabd22267d580c6f79941fc3648c84e7ad44fdc60907db"], ["eyes", "01a215d4-c47c-705a-ae86-4f031388c4e9", "67ad5625ce9c54c52559e8d0ca901573a76aeb82dd0f7545136f59173d3777dc"], ["eyes", "01a215d4-c47c-705a-ae86-4f0463fdbe36", "08716390ddbfef90b721d1035bb3b7ead92d0a8f19141ac280c76b0fa2238bf1"], ["operations", "01a215d4-c47d-717b-a131-d2370cee5ae7", "52d2ef541e28e10f6ee628c1653bc0dd29c558b47f739b734fceee7e9339b5e8"], ["operation_records", "01a215d4-c47d-717b-a131-d238ebadb734", "1e633e3a38ea66847744af4302cf76d06e1412aa8e908063b2f2fb40cf335f85"], ["visits", "01a215d4-c47d-717b-a131-d23980990123", "026ca5ac566ca28fff852610308b365124555a0027604b1edf7e81c2218da6a7"], ["visits", "01a215d4-c47d-717b-a131-d23ac943b2f6", "199d9d72b30fa02c262dac523a5b0661d5c94fda9fe8e93a9da0cfa3ed151299"], ["follow_ups", "01a215d4-c47d-717b-a131-d23b00a0500e", "ed4235d4bc0a42a8a9d8d237f0276556fac0246db186d125e7d3462cb8e9ab65"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','consent given','01a215d4-c462-7052-af64-f097ff3aec8b','{"said_by":"patient","what":"phone"}','45a03adc627f78642293c487569b4256376b3e32e70935c1314c741a8f123820','b6d668d890095d420eed0c5dd54bc950e70a27f98b923a7d487abb91a582bce4','[["consents", "01a215d4-c489-7470-ba23-df12e67644ca", "38973d18b264dac50e97633fa45205d8f0f4f17d7a01fc542fd8d4a7ccc21f2e"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a215d4-c491-7062-961e-dbefa8146f02','device enrolled','01a215d4-c462-7052-af64-f097ff3aec8b','null','b6d668d890095d420eed0c5dd54bc950e70a27f98b923a7d487abb91a582bce4','645571598a1c1c8963a409ecbaebb280c70978c6ac533f5cd03d094e273c0f97','[["devices", "01a215d4-c491-7062-961e-dbefa8146f02", "24d03f3b853ecc6860f51c1b229701a2d786f172cece816abcb58154f0530c7a"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a215d4-c491-7062-961e-dbefa8146f02','event posture','01a215d4-c463-771e-8aa5-235c9cf0f675','{"id":"0195e5a0-0000-7000-8000-000000000001"}','645571598a1c1c8963a409ecbaebb280c70978c6ac533f5cd03d094e273c0f97','fc019d99c7a08e7adb203db8f106f16741b438ec7494edc50eb6c08fd765ae9f','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"today","rule":"missed-early-visit"}','fc019d99c7a08e7adb203db8f106f16741b438ec7494edc50eb6c08fd765ae9f','9980d48c6adb7722e0d9c8d1b0157c182e110a18f4fb4ce7d39b7d189aa304d9','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"posture-missed"}','9980d48c6adb7722e0d9c8d1b0157c182e110a18f4fb4ce7d39b7d189aa304d9','86915e8b3e7c1fb63dae9cf0a148e73deebf550c94cfc2fae1b23c1af9cc19df','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"silent-while-posturing"}','86915e8b3e7c1fb63dae9cf0a148e73deebf550c94cfc2fae1b23c1af9cc19df','c27fe11ac0ebe2f18b94bcf895a65c1dd07a3cbdd35cc06a29a83203dc0214fa','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"no-posture-entry"}','c27fe11ac0ebe2f18b94bcf895a65c1dd07a3cbdd35cc06a29a83203dc0214fa','18847e1d038dc1a4c8214586e4f0cf70d9afc56d909255f8fc81e3beab422904','[["events", "0195e5a0-0000-7000-8000-000000000001", "32863a2d5f90f7bf0805e38266e5902162d0982a537937c934e52c3a3a858304"], ["callbacks", "01a215d4-c4cf-7051-8e26-56c333f72946", "9ad3d8bdaec4bb0d5d1289f6b1dc25e30b83028d2e59aab6ddff4c633eaaa28f"], ["callback_steps", "01a215d4-c4cf-7051-8e26-56c4a00cca25", "a33776f48f5bc3a85413448f2786af9ab01b5905db636ff7255124b4e37636ec"], ["warnings", "01a215d4-c4cf-7051-8e26-56c51a2f5c05", "f6fa9935e8cc64764efd155757947962e045841d86dbbd8fb4154145a891ae65"], ["callbacks", "01a215d4-c4cf-7051-8e26-56c69c389266", "d2378939d0ac8bdfb8ba2284d65eccc0a852cab5354528b18ccac208fe8448e7"], ["callback_steps", "01a215d4-c4cf-7051-8e26-56c7dc6784e9", "ee29b7b45b5041b364d7171bb98d032b194312f84065075b0eb173b8d1bc5e55"], ["warnings", "01a215d4-c4cf-7051-8e26-56c896e46262", "51ab3b476b9870390536627878d127ac86e2d4b8ac9b017aca14eb115f6d48c3"], ["callbacks", "01a215d4-c4d0-7407-9830-48f1fd66b300", "49dc05eb68904d6f023dcdcda80e4b38b47920ad27ec3d7db08a0bf455e7debf"], ["callback_steps", "01a215d4-c4d0-7407-9830-48f20f7af5c0", "63e77d2606b9ba775c958aa8cfa52b930da1853ae50eadc10c30363d60846112"], ["warnings", "01a215d4-c4d0-7407-9830-48f3fa2adc1d", "5d9b1107fa3b90ccabb0d204a2ac49a3fcfa71d1fb626d4ed7ddfec833886f93"], ["callback_steps", "01a215d4-c4d0-7407-9830-48f4fe2e979e", "e5da5d97e7e0008789fc6217ea7c2e0246deb97ce796a934c0f027eca593fcba"], ["warnings", "01a215d4-c4d0-7407-9830-48f53ca8c37c", "a62c4518f1383f9b0626931a1edef66728ef5e81763adb1ddc9358c58fe3bd6e"]]');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','patient:01a215d4-c491-7062-961e-dbefa8146f02','event symptoms','01a215d4-c463-771e-8aa5-235c9cf0f675','{"id":"0195e5a0-0000-7000-8000-000000000002"}','18847e1d038dc1a4c8214586e4f0cf70d9afc56d909255f8fc81e3beab422904','7c4d00936bf6e372d9304b85623a011f68eada4a3b2f4ef1eaf73ae4217cb8f0','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"now","rule":"infection-suspected"}','7c4d00936bf6e372d9304b85623a011f68eada4a3b2f4ef1eaf73ae4217cb8f0','95193bfdb469971e39dc46b43da91216a6cc3391d1a48a2dc7dc008a1fab1a29','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"now","rule":"severe-pain"}','95193bfdb469971e39dc46b43da91216a6cc3391d1a48a2dc7dc008a1fab1a29','6942455f3ac1cd785953cf4b77fb66c4c0c03c2c001dedcba998861c976f3af0','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"today","rule":"curtain"}','6942455f3ac1cd785953cf4b77fb66c4c0c03c2c001dedcba998861c976f3af0','87358cffc21fc35035e1210ed53e40eb3238d2239d5547efd7c7a3e2443675b4','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"today","rule":"pain"}','87358cffc21fc35035e1210ed53e40eb3238d2239d5547efd7c7a3e2443675b4','af2aaaad7deff0eed2a5a63956ac4f8d5c2c6eba37cf0924c0afaf6edc588540','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"today","rule":"vision-worse"}','af2aaaad7deff0eed2a5a63956ac4f8d5c2c6eba37cf0924c0afaf6edc588540','35977d4d80c31ab1395acc18c5938b0eaa2411118fe7da9c1c7b0ee7a078d9cc','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"vision-said-worse"}','35977d4d80c31ab1395acc18c5938b0eaa2411118fe7da9c1c7b0ee7a078d9cc','cf550d89f10618cc6917d42fc5871f13b798d5073259e14b8126e1c6389435c5','[["events", "0195e5a0-0000-7000-8000-000000000002", "dd7c44ebfd52c660c0d170aaf79dea733c490104da95ed91f83f8817f5fef04e"], ["callbacks", "01a215d4-c4e6-746a-a5a7-94f4f770200f", "ac4ffccad6cc4e31e6a6379d6ad108a1752a6f24d27672b6af58a77cd85a1dec"], ["callback_steps", "01a215d4-c4e6-746a-a5a7-94f5940b0f05", "66447d9c3754d55970cc177432dcfff473ea259bddca579087a26910c5793aab"], ["warnings", "01a215d4-c4e6-746a-a5a7-94f6ec9f4de9", "10125acdad0ee793791f404730fbdd820d2c07c0f2b2a4c56506102ad38749be"], ["callbacks", "01a215d4-c4e6-746a-a5a7-94f7f1a2e140", "c34a6ace566176558035d6c6590ea059b20bce90962ae51aad9823c6fe972387"], ["callback_steps", "01a215d4-c4e6-746a-a5a7-94f85230bacd", "784d62fd62fc06e85133e4ae8a9ee36616d9906cde8c29f7d1cc49b1e36982ce"], ["warnings", "01a215d4-c4e6-746a-a5a7-94f99064a9fc", "dcd161df90480554488ca8622e68abdd80d33dfaa9a25ae668c3059e1b1b63cd"], ["callbacks", "01a215d4-c4e6-746a-a5a7-94fa6f32186e", "78dbf80b5443f989a7eca17f08504d068765715d040f4d0987364f7972adb2e0"], ["callback_steps", "01a215d4-c4e6-746a-a5a7-94fb2636ba3b", "ef19d71d3ab23da712d6e377ba81918906776f47193e33be3d02648ebca68aef"], ["warnings", "01a215d4-c4e6-746a-a5a7-94fc03cc5f4c", "1f563a9a93e6228b991c5fad8dbcd12660d3e9afcbeb399a0cb5c8bc7ceab4a9"], ["callback_steps", "01a215d4-c4e7-735e-9a5a-99d1938f534d", "2ae5496d7195e08d1a1cfa7982b86b760d2f520114947d183f7c0acb87ec034f"], ["warnings", "01a215d4-c4e7-735e-9a5a-99d2eb443bf3", "749496404bdd32141ba999fb2d1cf069026bf5183aee9317920327597e866a6e"], ["callback_steps", "01a215d4-c4e7-735e-9a5a-99d36f42b912", "636374a2065d158f5adc6bdfb7122379a33e30b81322b8f968f9e6ec04bf33b1"], ["warnings", "01a215d4-c4e7-735e-9a5a-99d468391cb0", "cbc4f0ae1da8be5fe54953058ea61734a986a2af654450103314ebc8ed9c6d00"], ["callback_steps", "01a215d4-c4e7-735e-9a5a-99d5d7a513b2", "100ec9750fd906265b3aa66fbf54e6c890dfb8bd69cb97d3b1e6c121fde6c9e7"], ["warnings", "01a215d4-c4e7-735e-9a5a-99d6ca7fd50d", "56053b88f3a5ae76b2a8130fa4607ebebdb958e264575c51a4fc2822cd2f2d73"]]');
INSERT INTO "audit" VALUES(21,'2026-11-26T03:09:55.316918Z','followup','recorded','refused_events','null','cf550d89f10618cc6917d42fc5871f13b798d5073259e14b8126e1c6389435c5','a8efb1652bc4c9750c50b6d9d6181580a51860d117aa0174695551f6d8b51bf9','[["refused_events", "7830fcb429be938a203a5c4ea6ead56b02c95b1c8fc257f54bfb20b34b14cf84", "1b791440824e27e8d25c642f8ce9708dba73e2ed125c0c4916fe89c73d39a618"]]');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','event measures','01a215d4-c463-771e-8aa5-235c9cf0f675','{"id":"01a215d4-c4fc-7537-96be-cb5a5bf7a3e3"}','a8efb1652bc4c9750c50b6d9d6181580a51860d117aa0174695551f6d8b51bf9','5aee66ede20a0953a93683202d55693c106dd2d460ea65cedefb4753c6bc8968','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','event seen','01a215d4-c463-771e-8aa5-235c9cf0f675','{"id":"01a215d4-c4fd-75e0-8427-70d0fe0ba401"}','5aee66ede20a0953a93683202d55693c106dd2d460ea65cedefb4753c6bc8968','d2d1729acf58723c76a402274004bfb113ac013cd1c41af60d192b32ea82a852','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"now","rule":"pressure-severe"}','d2d1729acf58723c76a402274004bfb113ac013cd1c41af60d192b32ea82a852','a6160de7583316b8bf47760780c8f68374fd54788d9e167a9f30aaccbf5e4255','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"today","rule":"pressure-spike"}','a6160de7583316b8bf47760780c8f68374fd54788d9e167a9f30aaccbf5e4255','6d6d2f7318eaef11b7947f7c48184fa82a138eebc4a5f4545322bcaf5ba6916b','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"pressure-raised"}','6d6d2f7318eaef11b7947f7c48184fa82a138eebc4a5f4545322bcaf5ba6916b','f419390e0f2c564dc0543266cb794e52dc09c1240cceecb8278977669b6e77c3','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"pressure-rise"}','f419390e0f2c564dc0543266cb794e52dc09c1240cceecb8278977669b6e77c3','135e24b4d0014380356f4f52c034f8e9570cf206a6ca2c9d834a2288ffb4de7b','');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c463-771e-8aa5-235c9cf0f675','{"how_soon":"this-week","rule":"pressure-rising"}','135e24b4d0014380356f4f52c034f8e9570cf206a6ca2c9d834a2288ffb4de7b','da50ea5e90ad816b6b4f2f7747644e994fb30bcb94183284957d20375dc86a2b','[["events", "01a215d4-c4fc-7537-96be-cb5a5bf7a3e3", "eee2ef6af7b95980f5b2a71f2aef72fc262381e093405f4228593dc13304747e"], ["events", "01a215d4-c4fd-75e0-8427-70d0fe0ba401", "3bcf33bef01d9fc09c8913640025e94efa727a9e8c8342854f8f117b350028c2"], ["callback_steps", "01a215d4-c509-7553-9ea6-91f9db48e048", "41d639e18e3739ec7683311568a4caffdc8f9225b85e3a18ef108e9b237452a4"], ["warnings", "01a215d4-c509-7553-9ea6-91fa93e16cba", "c0162eba07feae3455b6c75a074ea51d7a26a308489046f0f77c3cd1d769890f"], ["callback_steps", "01a215d4-c509-7553-9ea6-91fb058f92b8", "2083bd67db599e5cbea9dd583af4a2c71f47a12bd8c781fe80f3efd249c95018"], ["warnings", "01a215d4-c509-7553-9ea6-91fc695c65b9", "305bc9a2acea79c12fde30de0ecfc45d8e2ac701b22b1d8aa7d451797b83c9e0"], ["callback_steps", "01a215d4-c509-7553-9ea6-91fdef6cc836", "14e3d297e8ca13e3e9e9436e519ece952bff564a4f68f19a832a409cad6c374c"], ["warnings", "01a215d4-c509-7553-9ea6-91fe644bc847", "f989f68989f15fa8b542a99047ff680892a1e3f1fac0296b9d78ab6b854d8b05"], ["callback_steps", "01a215d4-c509-7553-9ea6-91ff38a7c5ba", "6083ea6eb48cde6fd956c9bc23712c25c7976c4dc5e9babf2827286a84d013da"], ["warnings", "01a215d4-c509-7553-9ea6-9200b76ed6b7", "d7ddfdc60cb038910444714c0dbc68f4ea2a517a94c242fe26948ba09bb5bbed"], ["callback_steps", "01a215d4-c509-7553-9ea6-9201664decb9", "735c754e850e6b39118aced370ab28e32ae3b3565dbbdc11506a8c4fe49ec10e"], ["warnings", "01a215d4-c509-7553-9ea6-92025aa6a304", "b17a9e1f35ac9c2c96a4da7a4881fb3ff145788f39a6d8244aa09cbf53772b0d"]]');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','event measures','01a215d4-c47c-705a-ae86-4f031388c4e9','{"id":"01a215d4-c510-7137-9b25-65cd13696845"}','da50ea5e90ad816b6b4f2f7747644e994fb30bcb94183284957d20375dc86a2b','3c4c29d2dda3b553d11fb4f7f4dfed9e879e58c468ed43f46792a94b6c3fafc7','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c47c-705a-ae86-4f031388c4e9','{"how_soon":"today","rule":"missed-early-visit"}','3c4c29d2dda3b553d11fb4f7f4dfed9e879e58c468ed43f46792a94b6c3fafc7','f1fe03c067eb4cc1f7f1c3d0fc367030cd5c5c36f7b8682424677e042b280569','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c47c-705a-ae86-4f031388c4e9','{"how_soon":"this-week","rule":"no-posture-entry"}','f1fe03c067eb4cc1f7f1c3d0fc367030cd5c5c36f7b8682424677e042b280569','7a069070db5aecfaa45308036674fa1814cf8aa52b222eccfd4f1b6c4290422b','');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215d4-c47c-705a-ae86-4f031388c4e9','{"how_soon":"this-week","rule":"silent-while-posturing"}','7a069070db5aecfaa45308036674fa1814cf8aa52b222eccfd4f1b6c4290422b','c9d1453290a558d42186e7f511ef167f4e1405460524934f347020f61fa0dbb3','[["events", "01a215d4-c510-7137-9b25-65cd13696845", "850ab4538fb6eec1dafc259831c8a58ea5a85a98c4ea90643fd42c09dde8026a"], ["callbacks", "01a215d4-c511-7546-bf48-72af16697fe5", "7083e1aa7f653fec6f7eaa5991a54c71d78210bb216463e7aa97a134d5c2ead5"], ["callback_steps", "01a215d4-c512-72c9-8c8d-b42156be8738", "522b3a4389db01a95fb0e987cc27605a9ba251fbd6ab00d9d39fe5fd6fc3291f"], ["warnings", "01a215d4-c512-72c9-8c8d-b422c2b96c73", "afe5ca4a16cf7a4c96703b7ce56a6baf83c90566f906d2494dcc85b9727fb605"], ["callbacks", "01a215d4-c512-72c9-8c8d-b423eddc7d98", "bfb18277e1f65993d795eeffb3067256f89dc8cdab03f552d8349caf485ee87c"], ["callback_steps", "01a215d4-c512-72c9-8c8d-b424c3ee9c56", "1b3d042089e0a6c1abfcffe69627e8d7cd988e696e15e467804b2a7a0e09ddf9"], ["warnings", "01a215d4-c512-72c9-8c8d-b42537c7e8da", "a7b4f302bc94033f7c91668c7c7886d6d5c74b3731627608e99820bb918b150a"], ["callback_steps", "01a215d4-c512-72c9-8c8d-b4261286c702", "85d7e4284dcaf53b25a951025a5d3e987745e7ec5899290796e9f915ae387f01"], ["warnings", "01a215d4-c512-72c9-8c8d-b4277a552d1d", "5fccce72936545cc20d04609af9d39da8772a5baaa4843e1f24ca12e51c55786"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','callback claimed','01a215d4-c4e6-746a-a5a7-94f4f770200f','null','c9d1453290a558d42186e7f511ef167f4e1405460524934f347020f61fa0dbb3','3edc1190ffb3e059f60c52799054b520ecde6a5531a39359e93c7417babb952e','[["callbacks", "01a215d4-c4e6-746a-a5a7-94f4f770200f", "a86daaed8a64f59c516ecbab5a2dfd83537ebdc22b5beb312b245cf87e62b99a"], ["callback_steps", "01a215d4-c52b-700f-9c98-d3494734f100", "f78278eb5c2517c64dd628114ec66a45d2dcffc574d00f00f0a9b94a9207c78f"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','callback attempt','01a215d4-c4e6-746a-a5a7-94f4f770200f','{"reached":true}','3edc1190ffb3e059f60c52799054b520ecde6a5531a39359e93c7417babb952e','0d1141154298b959c39218c39ae69062d7530542a18b857d09df0621b26ee445','[["events", "01a215d4-c535-75c7-a6d2-4914d4266b83", "3b97e12e68902e0980b6a4a8b2c9ec3c5ebfe291af0e1598db917e9d14932d4e"], ["callback_steps", "01a215d4-c535-75c7-a6d2-49153ba41e70", "a2d5a6a04d6b2000d6da1f5da71951dbba6b5a6696d46e6eb7a3bb272164f4a5"], ["callbacks", "01a215d4-c4e6-746a-a5a7-94f4f770200f", "a86daaed8a64f59c516ecbab5a2dfd83537ebdc22b5beb312b245cf87e62b99a"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','callback settled','01a215d4-c4e6-746a-a5a7-94f4f770200f','{"outcome":"advice"}','0d1141154298b959c39218c39ae69062d7530542a18b857d09df0621b26ee445','50df52b932f23d5c45eea830b55d3408afdb79344628a27789a9de88c53826b3','[["callbacks", "01a215d4-c4e6-746a-a5a7-94f4f770200f", "950cd8ac7ffce06561f48af5f309aac322ef02eedf29414cb222541e4a953561"], ["callback_steps", "01a215d4-c53d-7266-87bd-d88f0d36a606", "c2d813b42eea96ed90f1a06e68957d5e2683fea0035f25be531be626c1368691"]]');
INSERT INTO "audit" VALUES(36,'2027-03-05T10:00:00.000000Z','surgeon:01a215d4-c458-72b8-a04c-6c2504007946','protocol signed','reviews','{"fingerprint":"f544271cc2c2f9b1"}','50df52b932f23d5c45eea830b55d3408afdb79344628a27789a9de88c53826b3','e14b9d1ac99f6268afff7eabee3a1351986c2dc9fcae2a418bcf8cba683b4b50','[["signatures", "01a215d4-c541-7501-ab71-e66679798b47", "d02263b5b6b01000a530cce22c7393acc856a6cf75eff5a622620fd0bef97c4c"]]');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a215d4-c4cf-7051-8e26-56c4a00cca25','01a215d4-c4cf-7051-8e26-56c333f72946','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4cf-7051-8e26-56c7dc6784e9','01a215d4-c4cf-7051-8e26-56c69c389266','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4d0-7407-9830-48f20f7af5c0','01a215d4-c4d0-7407-9830-48f1fd66b300','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4d0-7407-9830-48f4fe2e979e','01a215d4-c4d0-7407-9830-48f1fd66b300','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4e6-746a-a5a7-94f5940b0f05','01a215d4-c4e6-746a-a5a7-94f4f770200f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4e6-746a-a5a7-94f85230bacd','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4e6-746a-a5a7-94fb2636ba3b','01a215d4-c4e6-746a-a5a7-94fa6f32186e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4e7-735e-9a5a-99d1938f534d','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4e7-735e-9a5a-99d36f42b912','01a215d4-c4e6-746a-a5a7-94fa6f32186e','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c4e7-735e-9a5a-99d5d7a513b2','01a215d4-c4e6-746a-a5a7-94fa6f32186e','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c509-7553-9ea6-91f9db48e048','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c509-7553-9ea6-91fb058f92b8','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c509-7553-9ea6-91fdef6cc836','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c509-7553-9ea6-91ff38a7c5ba','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c509-7553-9ea6-9201664decb9','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c512-72c9-8c8d-b42156be8738','01a215d4-c511-7546-bf48-72af16697fe5','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c512-72c9-8c8d-b424c3ee9c56','01a215d4-c512-72c9-8c8d-b423eddc7d98','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c512-72c9-8c8d-b4261286c702','01a215d4-c512-72c9-8c8d-b423eddc7d98','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a215d4-c52b-700f-9c98-d3494734f100','01a215d4-c4e6-746a-a5a7-94f4f770200f','2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a215d4-c535-75c7-a6d2-49153ba41e70','01a215d4-c4e6-746a-a5a7-94f4f770200f','2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a215d4-c53d-7266-87bd-d88f0d36a606','01a215d4-c4e6-746a-a5a7-94f4f770200f','2027-03-05T10:00:00.000000Z','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a215d4-c4cf-7051-8e26-56c333f72946','01a215d4-c463-771e-8aa5-235c9cf0f675','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c4cf-7051-8e26-56c69c389266','01a215d4-c463-771e-8aa5-235c9cf0f675','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c4d0-7407-9830-48f1fd66b300','01a215d4-c463-771e-8aa5-235c9cf0f675','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c4e6-746a-a5a7-94f4f770200f','01a215d4-c463-771e-8aa5-235c9cf0f675','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a215d4-c446-75f0-bf78-9ddcd46443b2',NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c4e6-746a-a5a7-94f7f1a2e140','01a215d4-c463-771e-8aa5-235c9cf0f675','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c4e6-746a-a5a7-94fa6f32186e','01a215d4-c463-771e-8aa5-235c9cf0f675','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c511-7546-bf48-72af16697fe5','01a215d4-c47c-705a-ae86-4f031388c4e9','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215d4-c512-72c9-8c8d-b423eddc7d98','01a215d4-c47c-705a-ae86-4f031388c4e9','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE consents (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, at TEXT NOT NULL, what TEXT NOT NULL,
            given INTEGER NOT NULL CHECK (given IN (0, 1)), said_by TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "consents" VALUES('01a215d4-c489-7470-ba23-df12e67644ca','01a215d4-c462-7052-af64-f097ff3aec8b','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        ) STRICT;
INSERT INTO "devices" VALUES('01a215d4-c491-7062-961e-dbefa8146f02','01a215d4-c462-7052-af64-f097ff3aec8b','7007ad5fa04a60543aaa000c54441a584988ee7cb7a4e056d23866adb7c5bc51','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL);
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        ) STRICT;
INSERT INTO "enrolments" VALUES('01a215d4-c469-72e5-8d33-99fea21ded8d','01a215d4-c462-7052-af64-f097ff3aec8b','d62115b711685cfd4e15f760674528f0010da01781c8fd42ba172e54346083bc','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0);
INSERT INTO "enrolments" VALUES('01a215d4-c47d-717b-a131-d23cdf96f09c','01a215d4-c47c-705a-ae86-4f02dae2a0fb','a284e7c5af1ad412c29411f1df11a020dc8e9c8f250c126e9b51937c0dc68b8d','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0);
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a215d4-c463-771e-8aa5-235c9cf0f675','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a215d4-c491-7062-961e-dbefa8146f02','01a215d4-c491-7062-961e-dbefa8146f02',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a215d4-c463-771e-8aa5-235c9cf0f675','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a215d4-c491-7062-961e-dbefa8146f02','01a215d4-c491-7062-961e-dbefa8146f02',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215d4-c4fc-7537-96be-cb5a5bf7a3e3','01a215d4-c463-771e-8aa5-235c9cf0f675','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215d4-c4fd-75e0-8427-70d0fe0ba401','01a215d4-c463-771e-8aa5-235c9cf0f675','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a215d4-c469-72e5-8d33-99fb8c7702a2"}','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215d4-c510-7137-9b25-65cd13696845','01a215d4-c47c-705a-ae86-4f031388c4e9','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215d4-c535-75c7-a6d2-4914d4266b83','01a215d4-c463-771e-8aa5-235c9cf0f675','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c462-7052-af64-f097ff3aec8b','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a215d4-c463-771e-8aa5-235d4d30645e','01a215d4-c462-7052-af64-f097ff3aec8b','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a215d4-c47c-705a-ae86-4f031388c4e9','01a215d4-c47c-705a-ae86-4f02dae2a0fb','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a215d4-c47c-705a-ae86-4f0463fdbe36','01a215d4-c47c-705a-ae86-4f02dae2a0fb','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a215d4-c469-72e5-8d33-99fd587e1912','01a215d4-c463-771e-8aa5-235c9cf0f675','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2');
INSERT INTO "follow_ups" VALUES('01a215d4-c47d-717b-a131-d23b00a0500e','01a215d4-c47c-705a-ae86-4f031388c4e9','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2');
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
CREATE TABLE listed_operations (
            id TEXT PRIMARY KEY, number TEXT NOT NULL, name TEXT NOT NULL, operated_on TEXT NOT NULL, eye TEXT NOT NULL,
            body TEXT NOT NULL, source TEXT NOT NULL, listed_by TEXT NOT NULL, listed_at TEXT NOT NULL,
            put_aside_at TEXT, put_aside_by TEXT, put_aside_why TEXT NOT NULL DEFAULT ''
        ) STRICT;
CREATE TABLE looks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", at TEXT NOT NULL, who TEXT NOT NULL
        ) STRICT;
CREATE TABLE message_choices (
            person TEXT PRIMARY KEY, email TEXT NOT NULL, language TEXT NOT NULL, quiet_from TEXT NOT NULL,
            quiet_to TEXT NOT NULL, unwanted TEXT NOT NULL, chosen_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE messages (
            key TEXT PRIMARY KEY, person TEXT NOT NULL, kind TEXT NOT NULL, about TEXT NOT NULL, made_at TEXT NOT NULL,
            useless_after TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'sending', 'sent', 'dropped')),
            tries INTEGER NOT NULL DEFAULT 0, next_try_at TEXT NOT NULL, taken_at TEXT, ended_at TEXT,
            detail TEXT NOT NULL DEFAULT ''
        ) STRICT;
CREATE TABLE "operation_records" (
            id TEXT PRIMARY KEY, operation_id TEXT NOT NULL REFERENCES operations, eye TEXT NOT NULL,
            operated_at TEXT NOT NULL, agent TEXT NOT NULL, surgeon TEXT NOT NULL, body TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, reason TEXT NOT NULL DEFAULT ''
        ) STRICT;
INSERT INTO "operation_records" VALUES('01a215d4-c469-72e5-8d33-99fa4c65a9f4','01a215d4-c468-77ed-bb22-91c21ed67cf1','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a215d4-c47d-717b-a131-d238ebadb734','01a215d4-c47d-717b-a131-d2370cee5ae7','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a215d4-c468-77ed-bb22-91c21ed67cf1','01a215d4-c463-771e-8aa5-235c9cf0f675','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a215d4-c47d-717b-a131-d2370cee5ae7','01a215d4-c47c-705a-ae86-4f031388c4e9','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('on','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('9','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('1','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('person','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('rson','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('erson','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('pia','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('9876','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('00','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('ia','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('876','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('s','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('09876','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('son','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('s1','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('009876','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('76','01a215d4-c462-7052-af64-f097ff3aec8b');
INSERT INTO "patient_terms" VALUES('09876','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('2','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('s2','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('olaf','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('9','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('her','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('9876','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('af','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('laf','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('ther','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('876','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('other','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('s','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('00','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('er','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('009876','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
INSERT INTO "patient_terms" VALUES('76','01a215d4-c47c-705a-ae86-4f02dae2a0fb');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a215d4-c462-7052-af64-f097ff3aec8b','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a215d4-c47c-705a-ae86-4f02dae2a0fb','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
CREATE TABLE protocol_texts (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, text TEXT NOT NULL, fingerprint TEXT NOT NULL,
            saved_by TEXT NOT NULL, saved_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE push_subscriptions (
            endpoint TEXT PRIMARY KEY, person TEXT NOT NULL, device_id TEXT REFERENCES devices, p256dh TEXT NOT NULL,
            auth TEXT NOT NULL, created_at TEXT NOT NULL, ended_at TEXT
        ) STRICT;
CREATE TABLE recovery_codes (
            staff_id TEXT NOT NULL REFERENCES staff, code_hash TEXT NOT NULL, used_at TEXT, PRIMARY KEY (staff_id, code_hash)
        ) STRICT;
CREATE TABLE refused_events (
            id TEXT NOT NULL, eye_id TEXT, device_id TEXT, text TEXT NOT NULL, reason TEXT NOT NULL,
            received_at TEXT NOT NULL, UNIQUE (id, device_id, text)
        ) STRICT;
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c491-7062-961e-dbefa8146f02','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a215d4-c463-771e-8aa5-235c9cf0f675", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a215d4-c541-7501-ab71-e66679798b47','reviews','f544271cc2c2f9b1','01a215d4-c458-72b8-a04c-6c2504007946','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a215d4-c446-75f0-bf78-9ddcd46443b2','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$UWfjylV9/gqYPhFYDGeBsw$UYuFjS9z481aR9RxSjPb52E2WZrYwqbPKt3UM9f3edY','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a215d4-c458-72b8-a04c-6c2504007946','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$ooc5NXYnGSa5iCsaE+7Mwg$fsRwf3htUhlBIYA0/jOVuQVK1NqYa30gvmHCBLF2TdM','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '', starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00')), why TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a215d4-c469-72e5-8d33-99fb8c7702a2','01a215d4-c463-771e-8aa5-235c9cf0f675','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z',NULL,0,'01a215d4-c469-72e5-8d33-99fb8c7702a2',NULL,'');
INSERT INTO "visits" VALUES('01a215d4-c469-72e5-8d33-99fcb211ba2e','01a215d4-c463-771e-8aa5-235c9cf0f675','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z',NULL,0,'01a215d4-c469-72e5-8d33-99fcb211ba2e',NULL,'');
INSERT INTO "visits" VALUES('01a215d4-c47d-717b-a131-d23980990123','01a215d4-c47c-705a-ae86-4f031388c4e9','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z',NULL,0,'01a215d4-c47d-717b-a131-d23980990123',NULL,'');
INSERT INTO "visits" VALUES('01a215d4-c47d-717b-a131-d23ac943b2f6','01a215d4-c47c-705a-ae86-4f031388c4e9','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a215d4-c446-75f0-bf78-9ddcd46443b2','2027-03-02T19:00:00.000000Z',NULL,0,'01a215d4-c47d-717b-a131-d23ac943b2f6',NULL,'');
CREATE TABLE visits_to_tell (
            visit_id TEXT PRIMARY KEY REFERENCES visits, made_at TEXT NOT NULL, told_at TEXT, told_by TEXT
        ) STRICT;
CREATE TABLE warning_grounds (
            number INTEGER PRIMARY KEY, warning_id TEXT NOT NULL REFERENCES warnings,
            unfounded INTEGER NOT NULL CHECK (unfounded IN (0, 1)), event_id TEXT REFERENCES events,
            note_id TEXT REFERENCES operation_records, at TEXT NOT NULL, CHECK ((event_id IS NULL) != (note_id IS NULL))
        ) STRICT;
CREATE TABLE warnings (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", callback_id TEXT NOT NULL REFERENCES callbacks,
            rule TEXT NOT NULL, worry TEXT NOT NULL, how_soon TEXT NOT NULL, raised_at TEXT NOT NULL, severity REAL NOT NULL,
            values_json TEXT NOT NULL, threshold TEXT NOT NULL, source TEXT NOT NULL, words TEXT NOT NULL,
            rulebook TEXT NOT NULL, recorded_at TEXT NOT NULL, UNIQUE (eye_id, rule, raised_at)
        ) STRICT;
INSERT INTO "warnings" VALUES('01a215d4-c4cf-7051-8e26-56c51a2f5c05','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4cf-7051-8e26-56c333f72946','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4cf-7051-8e26-56c896e46262','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4cf-7051-8e26-56c69c389266','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4d0-7407-9830-48f3fa2adc1d','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4d0-7407-9830-48f1fd66b300','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4d0-7407-9830-48f53ca8c37c','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4d0-7407-9830-48f1fd66b300','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4e6-746a-a5a7-94f6ec9f4de9','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f4f770200f','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4e6-746a-a5a7-94f99064a9fc','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4e6-746a-a5a7-94fc03cc5f4c','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94fa6f32186e','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4e7-735e-9a5a-99d2eb443bf3','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4e7-735e-9a5a-99d468391cb0','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94fa6f32186e','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c4e7-735e-9a5a-99d6ca7fd50d','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94fa6f32186e','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c509-7553-9ea6-91fa93e16cba','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c509-7553-9ea6-91fc695c65b9','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c509-7553-9ea6-91fe644bc847','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c509-7553-9ea6-9200b76ed6b7','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c509-7553-9ea6-92025aa6a304','01a215d4-c463-771e-8aa5-235c9cf0f675','01a215d4-c4e6-746a-a5a7-94f7f1a2e140','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c512-72c9-8c8d-b422c2b96c73','01a215d4-c47c-705a-ae86-4f031388c4e9','01a215d4-c511-7546-bf48-72af16697fe5','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c512-72c9-8c8d-b42537c7e8da','01a215d4-c47c-705a-ae86-4f031388c4e9','01a215d4-c512-72c9-8c8d-b423eddc7d98','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215d4-c512-72c9-8c8d-b4277a552d1d','01a215d4-c47c-705a-ae86-4f031388c4e9','01a215d4-c512-72c9-8c8d-b423eddc7d98','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
CREATE UNIQUE INDEX "idx__sqlite_migrations_migration_set_name"
    ON "_sqlite_migrations" ("migration_set", "name");
CREATE INDEX devices_of_patient ON devices (patient_id);
CREATE INDEX tries_by_key ON tries (what, key, at);
CREATE INDEX visits_by_date ON visits (target);
CREATE UNIQUE INDEX visits_replaced_once ON visits (replaces);
CREATE INDEX events_corrected ON events (corrects);
CREATE UNIQUE INDEX one_open_callback ON callbacks (eye_id, worry) WHERE state != 'settled';
CREATE INDEX callbacks_open ON callbacks (state, due_at);
CREATE INDEX steps_of_callback ON callback_steps (callback_id, at);
CREATE INDEX warnings_of_callback ON warnings (callback_id);
CREATE TRIGGER callback_steps_keeps_update BEFORE UPDATE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER callback_steps_keeps_delete BEFORE DELETE ON callback_steps BEGIN SELECT RAISE(ABORT, 'callback_steps is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_update BEFORE UPDATE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER protocol_texts_keeps_delete BEFORE DELETE ON protocol_texts BEGIN SELECT RAISE(ABORT, 'protocol_texts is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_update BEFORE UPDATE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER signatures_keeps_delete BEFORE DELETE ON signatures BEGIN SELECT RAISE(ABORT, 'signatures is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_update BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE TRIGGER audit_keeps_delete BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'audit is append-only: record a correction instead'); END;
CREATE INDEX subscriptions_of_person ON push_subscriptions (person);
CREATE INDEX messages_open ON messages (state, next_try_at);
CREATE INDEX messages_of_person ON messages (person, made_at);
CREATE INDEX tasks_of_callback ON tasks (callback_id, done_at);
CREATE INDEX visits_by_identity ON visits (identity);
CREATE TRIGGER patients_bounds_birth BEFORE INSERT ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND date(NEW.created_at, '+1 day') BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE TRIGGER patients_bounds_corrected_birth BEFORE UPDATE OF born_on ON patients WHEN NEW.born_on NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.born_on, '+0 days') IS NOT NEW.born_on OR NEW.born_on NOT BETWEEN '1900-01-01' AND '2200-12-31' BEGIN SELECT RAISE(ABORT, 'patients: born between 1900 and today'); END;
CREATE INDEX records_of_operation ON operation_records (operation_id, recorded_at);
CREATE INDEX operations_of_eye ON operations (eye_id);
CREATE INDEX events_of_eye ON events (eye_id, at);
CREATE INDEX visits_of_eye ON visits (eye_id);
CREATE INDEX looks_of_eye ON looks (eye_id, at);
CREATE UNIQUE INDEX eyes_of_patient ON eyes (patient_id, side);
CREATE INDEX follow_ups_of_eye ON follow_ups (eye_id, at);
CREATE INDEX patient_by_term ON patient_terms (term, patient_id);
CREATE INDEX terms_of_patient ON patient_terms (patient_id);
CREATE INDEX patients_by_birth ON patients (born_on);
CREATE TRIGGER follow_ups_keeps_update BEFORE UPDATE ON follow_ups BEGIN SELECT RAISE(ABORT, 'follow_ups is append-only: record a correction instead'); END;
CREATE TRIGGER follow_ups_keeps_delete BEFORE DELETE ON follow_ups BEGIN SELECT RAISE(ABORT, 'follow_ups is append-only: record a correction instead'); END;
CREATE TRIGGER events_bounds_event BEFORE INSERT ON events WHEN NEW.at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.at, '+0 days') IS NOT substr(NEW.at, 1, 10) OR NEW.received_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.received_at, '+0 days') IS NOT substr(NEW.received_at, 1, 10) OR (NEW.device_at IS NOT NULL AND (NEW.device_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.device_at, '+0 days') IS NOT substr(NEW.device_at, 1, 10))) OR NEW.at < '1989-12-31' OR julianday(NEW.at) > julianday(NEW.received_at) + 2 OR NOT json_valid(NEW.body) OR length(NEW.body) > 40000 BEGIN SELECT RAISE(ABORT, 'events: an event lies between 1990 and its arrival and has a readable body'); END;
CREATE TRIGGER events_keeps_delete BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER events_keeps_update BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'events is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_delete BEFORE DELETE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER looks_keeps_update BEFORE UPDATE ON looks BEGIN SELECT RAISE(ABORT, 'looks is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_bounds_surgery BEFORE INSERT ON operation_records WHEN NEW.operated_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.operated_at, '+0 days') IS NOT substr(NEW.operated_at, 1, 10) OR NEW.recorded_at NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]T[012][0-9]:[0-5][0-9]:[0-5][0-9].[0-9][0-9][0-9][0-9][0-9][0-9]Z' OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10) OR NEW.operated_at < '1989-12-31' OR julianday(NEW.operated_at) > julianday(NEW.recorded_at) + 1 OR NOT json_valid(NEW.body) BEGIN SELECT RAISE(ABORT, 'operation_records: surgery lies between 1990 and now'); END;
CREATE TRIGGER operation_records_keeps_delete BEFORE DELETE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER operation_records_keeps_update BEFORE UPDATE ON operation_records BEGIN SELECT RAISE(ABORT, 'operation_records is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_delete BEFORE DELETE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER refused_events_keeps_update BEFORE UPDATE ON refused_events BEGIN SELECT RAISE(ABORT, 'refused_events is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_delete BEFORE DELETE ON visits BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER visits_keeps_update BEFORE UPDATE ON visits
        BEGIN SELECT RAISE(ABORT, 'visits is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_delete BEFORE DELETE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER warnings_keeps_update BEFORE UPDATE ON warnings BEGIN SELECT RAISE(ABORT, 'warnings is append-only: record a correction instead'); END;
CREATE TRIGGER visits_bounds_visit BEFORE INSERT ON visits WHEN
            NEW.target NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.target, '+0 days') IS NOT NEW.target OR NEW.earliest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.earliest, '+0 days') IS NOT NEW.earliest OR NEW.latest NOT GLOB '[12][0-9][0-9][0-9]-[01][0-9]-[0-3][0-9]' OR date(NEW.latest, '+0 days') IS NOT NEW.latest
            OR date(NEW.recorded_at, '+0 days') IS NOT substr(NEW.recorded_at, 1, 10)
            OR min(NEW.target, NEW.earliest, NEW.latest) < date((SELECT min(r.operated_at) FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id), '-1 day')
            OR max(NEW.target, NEW.earliest, NEW.latest) > max(
                date((SELECT max(r.operated_at) FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE o.eye_id = NEW.eye_id), '+3 years', '+1 day'),
                date(NEW.recorded_at, '+1 year', '+1 day'))
        BEGIN SELECT RAISE(ABORT, 'visits: visits lie within three years after surgery'); END;
CREATE INDEX grounds_of_warning ON warning_grounds (warning_id, number);
CREATE TRIGGER warning_grounds_keeps_update BEFORE UPDATE ON warning_grounds BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END;
CREATE TRIGGER warning_grounds_keeps_delete BEFORE DELETE ON warning_grounds BEGIN SELECT RAISE(ABORT, 'warning_grounds is append-only: record a correction instead'); END;
CREATE INDEX eyes_joined ON eyes (joined_into) WHERE joined_into IS NOT NULL;
CREATE INDEX patients_joined ON patients (joined_into) WHERE joined_into IS NOT NULL;
CREATE INDEX tasks_of_decision ON tasks (decision) WHERE decision IS NOT NULL;
CREATE INDEX closures_of_day ON closures (day, number);
CREATE TRIGGER closures_keeps_update BEFORE UPDATE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
CREATE TRIGGER closures_keeps_delete BEFORE DELETE ON closures BEGIN SELECT RAISE(ABORT, 'closures is append-only: record a correction instead'); END;
CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
CREATE INDEX pages_opened_by_time ON pages_opened (at);
CREATE INDEX pages_opened_about ON pages_opened (about, at);
CREATE TRIGGER pages_opened_keeps_update BEFORE UPDATE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE TRIGGER pages_opened_keeps_delete BEFORE DELETE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE INDEX listed_by_day ON listed_operations (operated_on);
CREATE INDEX consents_of_patient ON consents (patient_id, what, at);
CREATE TRIGGER consents_keeps_update BEFORE UPDATE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
CREATE TRIGGER consents_keeps_delete BEFORE DELETE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
COMMIT;
