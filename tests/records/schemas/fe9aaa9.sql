BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 02:34:52.014125+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 02:34:52.018819+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 02:34:52.031036+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 02:34:52.037467+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 02:34:52.045850+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 02:34:52.052630+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 02:34:52.066600+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 02:34:52.073537+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 02:34:52.085030+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 02:34:52.093035+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 02:34:52.149846+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 02:34:52.165439+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 02:34:52.176754+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 02:34:52.189965+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 02:34:52.198524+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m029_sessions','2026-11-26 02:34:52.226732+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m030_sealed_facts','2026-11-26 02:34:52.241714+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m031_carers_and_drops','2026-11-26 02:34:52.250036+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a215b4-adeb-7090-97e9-7cb773fd0c44','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','6785cab9c77e19e2c15ad2eecb9542061d45d90e4906082273ee9b879ed3891e','[["staff", "01a215b4-adeb-7090-97e9-7cb773fd0c44", "0ffe0bb88673f41f7d0e6ba15f703ef391c523465943ce8eb7af758ea8608fe7"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a215b4-adf4-741f-be4b-c98187956fd6','{"role":"surgeon"}','6785cab9c77e19e2c15ad2eecb9542061d45d90e4906082273ee9b879ed3891e','2e0262b823be8c8645346d58129f988758a3d6e5dcc509800619100f28750c96','[["staff", "01a215b4-adf4-741f-be4b-c98187956fd6", "59f2ea681717e95a7666f938e334227e7c26222df93b231add919e3b80a2ae39"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','enrolment code','01a215b4-ae05-76e0-b747-e18e938973d5','null','2e0262b823be8c8645346d58129f988758a3d6e5dcc509800619100f28750c96','d7ce6f113efcd9aa8f18cff52e45515771e9ffa9501750b1e97e2d6beb6fe3d7','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','discharge','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"agent":"c2f6","eye":"right"}','d7ce6f113efcd9aa8f18cff52e45515771e9ffa9501750b1e97e2d6beb6fe3d7','67da235033830a930db2eb1225e9bb5d0ce5e0ac872c22690ab5a3a939908c07','[["patients", "01a215b4-ae05-76e0-b747-e18e938973d5", "d7223e17350447f3cbf210a86b967363ac5b0507970a5232d3a1d1ed333fc2b7"], ["eyes", "01a215b4-ae05-76e0-b747-e18f5a0fbe2b", "1b21172349370deafd2c491fafc31af920e048e131258ae923876962ad8cc842"], ["eyes", "01a215b4-ae05-76e0-b747-e190972b1db1", "f94fe2df1f94a78c705a035101c5f5cc1c552aa429f2bc64656c81439542e5f8"], ["operations", "01a215b4-ae07-75b4-804e-92aa6b71f782", "ff1f08dbe7b8cdd3c592a9c004ecb83f2d8f1d7e717c160483bb866a01f78de4"], ["operation_records", "01a215b4-ae07-75b4-804e-92abb0095e4c", "bbcb12e0b9747908e22f8f230ab692cbc64abdc5c20463d294d570b5ffdce6f2"], ["visits", "01a215b4-ae07-75b4-804e-92acf6632204", "b91b9eafb67d245ff385b8376854651d8fd730430b4ed3def37c1f860c52be08"], ["visits", "01a215b4-ae07-75b4-804e-92add68c8805", "9e37868e09d00b6637464ed7acd181559d124b384cf81e1ba7ebad7f7e464762"], ["follow_ups", "01a215b4-ae07-75b4-804e-92ae85d8c62b", "5fac9b056e2f8de94c1247512c9d158f723a81849557ebb13ebf5757fc374859"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','enrolment code','01a215b4-ae14-74c6-8270-5c3bfb26b400','null','67da235033830a930db2eb1225e9bb5d0ce5e0ac872c22690ab5a3a939908c07','6714c9d8e7825f7d336a9e579d9333b9725e6017d7c28dfcb6aad386534081be','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','discharge','01a215b4-ae15-77c6-badf-52b9c81a0a24','{"agent":"silicone-oil","eye":"right"}','6714c9d8e7825f7d336a9e579d9333b9725e6017d7c28dfcb6aad386534081be','1dbb8f7580f14cfb19a787a95d6f7bcab7cd3e88ca2b857139b06ce723ab1d7a','[["patients", "01a215b4-ae14-74c6-8270-5c3bfb26b400", "6a4e7a51d2d4a577eaf54c4bb9c7adfa441a5818e6b30c378a0dbc7381af13f4"], ["eyes", "01a215b4-ae15-77c6-badf-52b9c81a0a24", "6f9934318e6c0b4d580b7a25dd6b3d9ac0c8f1cb13aaa6919b888e3e5ac5bed6"], ["eyes", "01a215b4-ae15-77c6-badf-52ba009dc1d4", "5b47382c39da7d27fe2cb57e64f86d527389c4cf5dda6aee4104143bf5b2133a"], ["operations", "01a215b4-ae15-77c6-badf-52bb358920c1", "cbdfb1070643b60b51060c00ef1984d0e805909f0a8699751d05be409db7e6a2"], ["operation_records", "01a215b4-ae15-77c6-badf-52bc9a2e2cd8", "47bee34e8bd4d0440ca6948819c8ad80bfe4db321051317f66a08339524677b6"], ["visits", "01a215b4-ae15-77c6-badf-52bdecec4c71", "ece8eaa6ba2a5fcae070205124df3aa26973cf901ad1a955b7fccc9a444d70f0"], ["visits", "01a215b4-ae15-77c6-badf-52be978eee0c", "960d7e26dfc99034cd022726d08d40f071f453e62971563846ad43151bb8ccc2"], ["follow_ups", "01a215b4-ae15-77c6-badf-52bfd2a1f273", "359f362687042967ae14181b35c87d922b0cecb8fa74dc3ab1f4ad9c7aeabf37"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T20:00:00.000000Z','patient:01a215b4-ae1c-75a0-a57b-04e725f54c8b','device enrolled','01a215b4-ae05-76e0-b747-e18e938973d5','null','1dbb8f7580f14cfb19a787a95d6f7bcab7cd3e88ca2b857139b06ce723ab1d7a','b671c85892eec9e6ee837fd50c07b9497d18d1c7da76afc3325e017c48b91c8a','[["devices", "01a215b4-ae1c-75a0-a57b-04e725f54c8b", "7526001d2ba13d0c9742145ea5a65d3ab07ad34a47f9375fa0a4441eba0402a4"]]');
INSERT INTO "audit" VALUES(8,'2027-03-05T10:00:00.000000Z','patient:01a215b4-ae1c-75a0-a57b-04e725f54c8b','event posture','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"id":"0195e5a0-0000-7000-8000-000000000001"}','b671c85892eec9e6ee837fd50c07b9497d18d1c7da76afc3325e017c48b91c8a','80155b65828d119a2352a3879b312d803c0cd827af1eeacd0d108791bf79c6d3','');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"today","rule":"missed-early-visit"}','80155b65828d119a2352a3879b312d803c0cd827af1eeacd0d108791bf79c6d3','932825e1962965d59c72e537bbee23072a743055a51fe66ca8a50b1e99db5bdb','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"posture-missed"}','932825e1962965d59c72e537bbee23072a743055a51fe66ca8a50b1e99db5bdb','275a3471cc81f2877fad15d178beca366d0cdf598929eac6a4899e57ef225b16','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"silent-while-posturing"}','275a3471cc81f2877fad15d178beca366d0cdf598929eac6a4899e57ef225b16','c7c92a0eeb442c37b294dce914b3ce5a966095968cfd6c35004101f1782b50df','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"no-posture-entry"}','c7c92a0eeb442c37b294dce914b3ce5a966095968cfd6c35004101f1782b50df','f947d505c5b7788102e8baaa3f9521b7512713d52b0b1cd7310d2ee3988bc352','[["events", "0195e5a0-0000-7000-8000-000000000001", "a4b96b475471da50e11dcc0d0b40bcadc8e6574b18fcbca4709c930de202adec"], ["callbacks", "01a215b4-ae42-74dd-afec-0cbd792ec34d", "66e8a8bb293c38b1c85ba8f45734dd686767e354ce76ab113553758cf49a8a53"], ["callback_steps", "01a215b4-ae42-74dd-afec-0cbe5797afd0", "25d50c53af9945c0682d7e8fd3559f68df7babc6d840b25cf74c42dd698c943d"], ["warnings", "01a215b4-ae42-74dd-afec-0cbfdb86efdb", "df2ee1efc42ad325f529f666f36bf0a34d25bf4c62063fd1651ac5618db39792"], ["callbacks", "01a215b4-ae43-7462-8d7b-50c9af5fcd77", "96938cbe5ed2a07ce441d95514f077598785eb3a346061cf7baa30f689303fd0"], ["callback_steps", "01a215b4-ae43-7462-8d7b-50cac62c782f", "2a7af643dac78d87b0ba7ee3eb8c5d9c5a2eba636042defd614d5fb3ca01438a"], ["warnings", "01a215b4-ae43-7462-8d7b-50cb5f3c70d1", "262fdccd455ddca6ac1dbfdc04533907176838b4d412d91de7e5a0a6d432fec5"], ["callbacks", "01a215b4-ae43-7462-8d7b-50ccac574adf", "89ec5aa5b3c4828655458f076ba039f727f9c48d4ad46c291b3abe190652a1ce"], ["callback_steps", "01a215b4-ae43-7462-8d7b-50cd16564323", "2300b3c2a96e4c453a57e0fbbd111051a33e213b82be52797584d5b0b2cda0f9"], ["warnings", "01a215b4-ae43-7462-8d7b-50ce7bf81a23", "696af04ff8a7194d00c2e26179131f8e9e981188b47a9d2fb33ae4d752906eef"], ["callback_steps", "01a215b4-ae43-7462-8d7b-50cfde13ab3e", "8904596ae38529d78d511f6ef3bce13a17f0c36187e0f34190908e709dbd2aa5"], ["warnings", "01a215b4-ae43-7462-8d7b-50d0e3c4b86c", "b7553e5f67d9ca968b2820b7142566e70a507c5ec9d7f96b4cdabf035ca1a9ec"]]');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','patient:01a215b4-ae1c-75a0-a57b-04e725f54c8b','event symptoms','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"id":"0195e5a0-0000-7000-8000-000000000002"}','f947d505c5b7788102e8baaa3f9521b7512713d52b0b1cd7310d2ee3988bc352','8416e2cedd90a1e8a8179c0bfa9f907260001aefa80e4ba69060ab68c6c95fe7','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"now","rule":"infection-suspected"}','8416e2cedd90a1e8a8179c0bfa9f907260001aefa80e4ba69060ab68c6c95fe7','8cd4bfc1a58def9d6fa914733707cc45cb996cb244550cb75b16930f8b9c84a2','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"now","rule":"severe-pain"}','8cd4bfc1a58def9d6fa914733707cc45cb996cb244550cb75b16930f8b9c84a2','3b0c9f7b79aacfb017c091e2b8d2deefeb255643add372fab5b94ac37d2f6e6d','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"today","rule":"curtain"}','3b0c9f7b79aacfb017c091e2b8d2deefeb255643add372fab5b94ac37d2f6e6d','a502e912c55be89c3a9cb877eee46c9e7d2eef8737edd5c3f34562c930cc55cc','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"today","rule":"pain"}','a502e912c55be89c3a9cb877eee46c9e7d2eef8737edd5c3f34562c930cc55cc','0a108dca9ab759667aea85f011f6a3df1be87a222bcab6b170af042f89b36b26','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"today","rule":"vision-worse"}','0a108dca9ab759667aea85f011f6a3df1be87a222bcab6b170af042f89b36b26','7a707b984c8c329a1d46b12f74f6f6360a48b8bf784b6124f4303d69d08e132a','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"vision-said-worse"}','7a707b984c8c329a1d46b12f74f6f6360a48b8bf784b6124f4303d69d08e132a','2f8959854f7052ed01c4e776190e289b1e9c3ec9473ac4aa6cc0e0d1ab740c84','[["events", "0195e5a0-0000-7000-8000-000000000002", "02e8871cd657619d2c1155908b7ce9753ceb5f0492aafbd22f7e6ce35aae00d8"], ["callbacks", "01a215b4-ae4e-7207-8242-3f3327ba6e53", "b11939f2cf46ac63e61dfe79aea006ab6e58cdc4c3b1f58a6673fbe255009ece"], ["callback_steps", "01a215b4-ae4f-758b-962a-a5dcc9a8a5af", "f7f6351a420de83cdbf586b994356204193cf294c4ae8b33005b5c7774592bb8"], ["warnings", "01a215b4-ae4f-758b-962a-a5dd21d38dba", "71cea39a8ca593165ec9f0a9a9a94b512b144022549768452287aa23775986f2"], ["callbacks", "01a215b4-ae4f-758b-962a-a5dee8a204b4", "c01198bbd543d4fce46de9b0bccdedbaf8e913c758a5c56f38303a44b4a7ce9b"], ["callback_steps", "01a215b4-ae4f-758b-962a-a5df01ebd5f6", "2a6ee272d279d89011c00e4cbe177420c63966380bd0e297dbd968a435e903f7"], ["warnings", "01a215b4-ae4f-758b-962a-a5e0ffd54f3a", "a6e7f557d791abd5ed68565499fc5ba6a6de4fe24fcecca0b3f9b81fbe628344"], ["callbacks", "01a215b4-ae4f-758b-962a-a5e1c8afcf6f", "9d58588c652dcd09adf6292a64282a75354dcd71b7e292d02d134a24377230a9"], ["callback_steps", "01a215b4-ae4f-758b-962a-a5e2f9efe44c", "1ac87e78fcd5fff9aa75fb4fb3cb5b6b1f4a868d39f314f53ebb5647f0db65e9"], ["warnings", "01a215b4-ae4f-758b-962a-a5e35e1406ed", "3c62f9a9069a946e0707fabaad6163a07fbaeb684ae9d39caca02e800aad54f4"], ["callback_steps", "01a215b4-ae4f-758b-962a-a5e43870a5fd", "b359b42492a844f905031e39728a365e28ec3590bd5ae29a2bc9d5fd6df2bcc6"], ["warnings", "01a215b4-ae4f-758b-962a-a5e54d5b49f1", "e1436a248258ad0bcd9e42268a02f4e50ebde1f2c8e35494c8366fb6c0fa26b8"], ["callback_steps", "01a215b4-ae4f-758b-962a-a5e6a0334211", "4cb5412d2699656ca2f539f36ada5eb1c48eb386152455e382f559d24f0d1676"], ["warnings", "01a215b4-ae4f-758b-962a-a5e778809bc2", "b218972618af594cb094a5fbee806305551001c1c88784482865301502da94c6"], ["callback_steps", "01a215b4-ae4f-758b-962a-a5e8bcd7c7bc", "995d2e9a4724b90cb536da1bc2cd2101c1e28a30120b8966b3dc44f356984788"], ["warnings", "01a215b4-ae4f-758b-962a-a5e9363c5325", "1c49f8a6996f69041e3e182f18422bd5befd9b704b55acb297093eac0aca533e"]]');
INSERT INTO "audit" VALUES(20,'2026-11-26T02:34:52.384996Z','followup','recorded','refused_events','null','2f8959854f7052ed01c4e776190e289b1e9c3ec9473ac4aa6cc0e0d1ab740c84','92501f1f904ab4aba99d15de568ef9b425301cbd7239e0026e677b27c2d847dd','[["refused_events", "8062ea46d4837450d35396fcfee33eba9ed6bd9fa78a177d46a98920bcf2471a", "7b6c642cec4dcfd7e86581af6de3ef52c37ff94505ffda30bd6bd24e9d4f098b"]]');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','event measures','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"id":"01a215b4-ae65-76d9-a78e-4b5e7ce03073"}','92501f1f904ab4aba99d15de568ef9b425301cbd7239e0026e677b27c2d847dd','1473b33cd9229bb1d0c0892b749efc003b57c37cafe2cdada12a3ca6965c3881','');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','event seen','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"id":"01a215b4-ae66-70c5-85f3-b4a4d26723c4"}','1473b33cd9229bb1d0c0892b749efc003b57c37cafe2cdada12a3ca6965c3881','57f9be795d1b4f4b0f25c5ec640da7b148dd5f85820f7f92318707b88b1b587e','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"now","rule":"pressure-severe"}','57f9be795d1b4f4b0f25c5ec640da7b148dd5f85820f7f92318707b88b1b587e','87f80087256b6d4c6038876838a0b7e7c52c5b65b97990b5bceb0bf42b0d2ca3','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"today","rule":"pressure-spike"}','87f80087256b6d4c6038876838a0b7e7c52c5b65b97990b5bceb0bf42b0d2ca3','2dbbe9a13f551d1b8b0c92a38f958c06c11249efd945aec4710adda0ee961fc7','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"pressure-raised"}','2dbbe9a13f551d1b8b0c92a38f958c06c11249efd945aec4710adda0ee961fc7','9f51ce084e9c1648f4844aa1bbb7522dfc153aff365ba72ac1d5475ded4ac110','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"pressure-rise"}','9f51ce084e9c1648f4844aa1bbb7522dfc153aff365ba72ac1d5475ded4ac110','9c0a618952fb94201a98eeb1718acc82399e624426da5a57228d650b60cba981','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','{"how_soon":"this-week","rule":"pressure-rising"}','9c0a618952fb94201a98eeb1718acc82399e624426da5a57228d650b60cba981','4e5394b7d9919bea59e727bdc7af3769a7014e7f4ae9ff8117111b1c2cd4682b','[["events", "01a215b4-ae65-76d9-a78e-4b5e7ce03073", "e4a2d9f28d901a357b173e6ca1944a0cc86c53d47211102cafee73c21ad49771"], ["events", "01a215b4-ae66-70c5-85f3-b4a4d26723c4", "48e28c92bcd9dbeebf7517f0a886fd299099fc33f36c6a9cd73213f0765afb88"], ["callback_steps", "01a215b4-ae6b-768a-9bab-86307668ad69", "234e08c1a2e739fe15476ccaacc278e1d6f87a3f66dabaccd01661ea4d74df40"], ["warnings", "01a215b4-ae6b-768a-9bab-8631ccdab67d", "cf9e302a728a47159a5d4cca1a3d2a4fd261287963e16060463002a65a64d7df"], ["callback_steps", "01a215b4-ae6b-768a-9bab-8632f8df7df8", "3b68d2149ed68225f53b04c9b5a169bc7876d6f2ef2212593c32a56ca9b8c2e3"], ["warnings", "01a215b4-ae6c-7087-984a-d54283e57094", "744420c74fa6c099cc537174ad06de66cd6de27fc92af2559a9ff86adfbb0a04"], ["callback_steps", "01a215b4-ae6c-7087-984a-d543ce0d246d", "ca5d6f505cc7608e266efe28dc0ef9681cf716eebb83eff085da244f5ca52e39"], ["warnings", "01a215b4-ae6c-7087-984a-d544a84d76c0", "f2d513acda6c1bbea44048d19139000f78ee93de23cc9a626d0115315adc2652"], ["callback_steps", "01a215b4-ae6c-7087-984a-d5454462b2fb", "cc3562fc8cdac776c4671a2a2714462c6493151877544aba192846df8ee1458a"], ["warnings", "01a215b4-ae6c-7087-984a-d5467797da27", "9cf72e7741ac9159377bbe6f0a40a2decc4a357bb33124d8e672f62f108703ce"], ["callback_steps", "01a215b4-ae70-70ed-aac2-39cdd03f1748", "4121b646b8f97dd58d7955c1125e4321576d5484d0be58b2f163a1e257a4619f"], ["warnings", "01a215b4-ae70-70ed-aac2-39ce350d3604", "c596d88bed0820e184a55671a1122be5390c89db300977b9c927315424f99eeb"]]');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','event measures','01a215b4-ae15-77c6-badf-52b9c81a0a24','{"id":"01a215b4-ae78-70ed-a742-160b447b5adc"}','4e5394b7d9919bea59e727bdc7af3769a7014e7f4ae9ff8117111b1c2cd4682b','ae4e6b0d3ab97c510028438287bae1afece18528e3b86241fb65b796f1ab2d24','');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae15-77c6-badf-52b9c81a0a24','{"how_soon":"today","rule":"missed-early-visit"}','ae4e6b0d3ab97c510028438287bae1afece18528e3b86241fb65b796f1ab2d24','691d359c64971afa2def912d4904c9800a3c7bffdbb6c2abdada010c091a042c','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae15-77c6-badf-52b9c81a0a24','{"how_soon":"this-week","rule":"no-posture-entry"}','691d359c64971afa2def912d4904c9800a3c7bffdbb6c2abdada010c091a042c','914e868cf0cb6be11d775bc6f750a4961af6b8358627b187762115d8f9578ecb','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a215b4-ae15-77c6-badf-52b9c81a0a24','{"how_soon":"this-week","rule":"silent-while-posturing"}','914e868cf0cb6be11d775bc6f750a4961af6b8358627b187762115d8f9578ecb','ae72b0eca445b3f0f0205d41fe70fbc5f2a69d4e40593e8fd5bdc617b38e5826','[["events", "01a215b4-ae78-70ed-a742-160b447b5adc", "ff349bcce761d3a73d17233fb3d5825eb5835f6da8cbf6b3540b353a1e6c3275"], ["callbacks", "01a215b4-ae7a-738d-9f1d-17db75f8b73e", "ebb5d1049c416529598bf96c8abab0697eff5d39774f328953ae367223cb1cd9"], ["callback_steps", "01a215b4-ae7a-738d-9f1d-17dc1e2ea979", "031889354f5a75c23d201416593c10f14b12d262f298f189075282e05dfd27b0"], ["warnings", "01a215b4-ae7a-738d-9f1d-17dd4432502a", "45d48c735772d645810ddefaeeb2c56483f980772b3706a026001a6f1f70cf5c"], ["callbacks", "01a215b4-ae7a-738d-9f1d-17de093e9ef7", "1569707c931d105aeeade2aa6116acc10ac4b40b09882c104c3b800b7d1d4299"], ["callback_steps", "01a215b4-ae7a-738d-9f1d-17df05f4a80b", "2194881d2c00dad33cae347b7a1e94ec1e31f42ac818185727fcb9ed9022b133"], ["warnings", "01a215b4-ae7a-738d-9f1d-17e06752d60a", "0cd7eb49aa07445ea86269eafc81398254e62f8a4af00f1524765a6b78c71dd7"], ["callback_steps", "01a215b4-ae7a-738d-9f1d-17e1eb3cfa54", "7749e169cb6bea5dda7dd4c10d79b31b3b7858a9a4d2a23ff948c813730c2d74"], ["warnings", "01a215b4-ae7a-738d-9f1d-17e2d0051457", "0c74438da0b602ba3284f728fca76337314426d5341c8969b55fede3cec3bb73"]]');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','callback claimed','01a215b4-ae4e-7207-8242-3f3327ba6e53','null','ae72b0eca445b3f0f0205d41fe70fbc5f2a69d4e40593e8fd5bdc617b38e5826','6e5350ff14d829d32ea7c55679ead8fd88a9b1fc0e1631259f553416c5c39f7b','[["callbacks", "01a215b4-ae4e-7207-8242-3f3327ba6e53", "417c68bd2f7a3fa76671eb87f6f53361f5b6f55f7e9d38ee06ea9fede4653531"], ["callback_steps", "01a215b4-ae91-714e-ac86-cae7f817d51b", "41e7ea475d42280d72eb6701c9860d3395d95b79eb879a39ffc1721fe5a4e69c"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','callback attempt','01a215b4-ae4e-7207-8242-3f3327ba6e53','{"reached":true}','6e5350ff14d829d32ea7c55679ead8fd88a9b1fc0e1631259f553416c5c39f7b','34e76e726fd76415ed51b3bbcbcd54b57dcce9fe18b109fc13e1db43b9711cf4','[["events", "01a215b4-ae99-7381-87d2-584e91697a16", "9f82bbd8e136e33a8e24a76b8d52d4f42294a9dbf3e0ead65fedee69c55e7448"], ["callback_steps", "01a215b4-ae99-7381-87d2-584f688103f6", "f15799e6f65f4458b968045de1bd972a32356ee03576dfa4ff434628b440be2e"], ["callbacks", "01a215b4-ae4e-7207-8242-3f3327ba6e53", "417c68bd2f7a3fa76671eb87f6f53361f5b6f55f7e9d38ee06ea9fede4653531"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','callback settled','01a215b4-ae4e-7207-8242-3f3327ba6e53','{"outcome":"advice"}','34e76e726fd76415ed51b3bbcbcd54b57dcce9fe18b109fc13e1db43b9711cf4','2d91c3bfded2362c26e695ff155b7a296b7d987610de28b7cc25e2d4a48aa84e','[["callbacks", "01a215b4-ae4e-7207-8242-3f3327ba6e53", "2333c03d1b7169fb29d6d0efaded2602c21e2dbeaf9a1bd6632c9d46d31d6b02"], ["callback_steps", "01a215b4-aea5-729a-b406-f47d974ebb2d", "9ab7ba2df940fdce729e04cb841eeacc79949b460946832c64ddd5c88d68fa04"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','surgeon:01a215b4-adf4-741f-be4b-c98187956fd6','protocol signed','reviews','{"fingerprint":"f544271cc2c2f9b1"}','2d91c3bfded2362c26e695ff155b7a296b7d987610de28b7cc25e2d4a48aa84e','2771e39f5c4e2587342db92d1eb1d7fb0a4649a551298edf9cf568811f509357','[["signatures", "01a215b4-aea9-77fc-aad7-0106beb99d2a", "2bbfc2f3e6a48f08d87526592d2d6811349ac67c2ccd27367b9d95143860b7d8"]]');
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a215b4-ae42-74dd-afec-0cbe5797afd0','01a215b4-ae42-74dd-afec-0cbd792ec34d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae43-7462-8d7b-50cac62c782f','01a215b4-ae43-7462-8d7b-50c9af5fcd77','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae43-7462-8d7b-50cd16564323','01a215b4-ae43-7462-8d7b-50ccac574adf','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae43-7462-8d7b-50cfde13ab3e','01a215b4-ae43-7462-8d7b-50ccac574adf','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae4f-758b-962a-a5dcc9a8a5af','01a215b4-ae4e-7207-8242-3f3327ba6e53','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae4f-758b-962a-a5df01ebd5f6','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae4f-758b-962a-a5e2f9efe44c','01a215b4-ae4f-758b-962a-a5e1c8afcf6f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae4f-758b-962a-a5e43870a5fd','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae4f-758b-962a-a5e6a0334211','01a215b4-ae4f-758b-962a-a5e1c8afcf6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae4f-758b-962a-a5e8bcd7c7bc','01a215b4-ae4f-758b-962a-a5e1c8afcf6f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae6b-768a-9bab-86307668ad69','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae6b-768a-9bab-8632f8df7df8','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae6c-7087-984a-d543ce0d246d','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae6c-7087-984a-d5454462b2fb','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae70-70ed-aac2-39cdd03f1748','01a215b4-ae4f-758b-962a-a5dee8a204b4','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae7a-738d-9f1d-17dc1e2ea979','01a215b4-ae7a-738d-9f1d-17db75f8b73e','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae7a-738d-9f1d-17df05f4a80b','01a215b4-ae7a-738d-9f1d-17de093e9ef7','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae7a-738d-9f1d-17e1eb3cfa54','01a215b4-ae7a-738d-9f1d-17de093e9ef7','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae91-714e-ac86-cae7f817d51b','01a215b4-ae4e-7207-8242-3f3327ba6e53','2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a215b4-ae99-7381-87d2-584f688103f6','01a215b4-ae4e-7207-8242-3f3327ba6e53','2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a215b4-aea5-729a-b406-f47d974ebb2d','01a215b4-ae4e-7207-8242-3f3327ba6e53','2027-03-05T10:00:00.000000Z','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a215b4-ae42-74dd-afec-0cbd792ec34d','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae43-7462-8d7b-50c9af5fcd77','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae43-7462-8d7b-50ccac574adf','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae4e-7207-8242-3f3327ba6e53','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a215b4-adeb-7090-97e9-7cb773fd0c44',NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae4f-758b-962a-a5dee8a204b4','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae4f-758b-962a-a5e1c8afcf6f','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae7a-738d-9f1d-17db75f8b73e','01a215b4-ae15-77c6-badf-52b9c81a0a24','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a215b4-ae7a-738d-9f1d-17de093e9ef7','01a215b4-ae15-77c6-badf-52b9c81a0a24','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE closures (
            number INTEGER PRIMARY KEY, day TEXT NOT NULL CHECK (date(day, '+0 days') IS day),
            closed INTEGER NOT NULL CHECK (closed IN (0, 1)), why TEXT NOT NULL, recorded_by TEXT NOT NULL,
            recorded_at TEXT NOT NULL
        ) STRICT;
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "devices" VALUES('01a215b4-ae1c-75a0-a57b-04e725f54c8b','01a215b4-ae05-76e0-b747-e18e938973d5','2f0a0328036ffeb6c60c6922b9eeab74cc73f850b37fb5195443edf598ed55d7','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL,'');
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "enrolments" VALUES('01a215b4-ae07-75b4-804e-92afc3df29e2','01a215b4-ae05-76e0-b747-e18e938973d5','4dd3968f9361bd78e94a23b5dc233e08942642aca4ce6bbc9e02e889a27a65dd','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0,'');
INSERT INTO "enrolments" VALUES('01a215b4-ae15-77c6-badf-52c01c238451','01a215b4-ae14-74c6-8270-5c3bfb26b400','1304fc7339537df103f9448ff70a0dc4c50171bc0f85c918656096ecec4cd0f3','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0,'');
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a215b4-ae1c-75a0-a57b-04e725f54c8b','01a215b4-ae1c-75a0-a57b-04e725f54c8b',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a215b4-ae1c-75a0-a57b-04e725f54c8b','01a215b4-ae1c-75a0-a57b-04e725f54c8b',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215b4-ae65-76d9-a78e-4b5e7ce03073','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215b4-ae66-70c5-85f3-b4a4d26723c4','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a215b4-ae07-75b4-804e-92acf6632204"}','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215b4-ae78-70ed-a742-160b447b5adc','01a215b4-ae15-77c6-badf-52b9c81a0a24','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a215b4-ae99-7381-87d2-584e91697a16','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae05-76e0-b747-e18e938973d5','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a215b4-ae05-76e0-b747-e190972b1db1','01a215b4-ae05-76e0-b747-e18e938973d5','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a215b4-ae15-77c6-badf-52b9c81a0a24','01a215b4-ae14-74c6-8270-5c3bfb26b400','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a215b4-ae15-77c6-badf-52ba009dc1d4','01a215b4-ae14-74c6-8270-5c3bfb26b400','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a215b4-ae07-75b4-804e-92ae85d8c62b','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44');
INSERT INTO "follow_ups" VALUES('01a215b4-ae15-77c6-badf-52bfd2a1f273','01a215b4-ae15-77c6-badf-52b9c81a0a24','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44');
CREATE TABLE job_runs (job TEXT PRIMARY KEY, started_at TEXT NOT NULL, ended_at TEXT, result TEXT) STRICT;
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
INSERT INTO "operation_records" VALUES('01a215b4-ae07-75b4-804e-92abb0095e4c','01a215b4-ae07-75b4-804e-92aa6b71f782','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a215b4-ae15-77c6-badf-52bc9a2e2cd8','01a215b4-ae15-77c6-badf-52bb358920c1','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15},"breaks":[{"clock":11,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a215b4-ae07-75b4-804e-92aa6b71f782','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a215b4-ae15-77c6-badf-52bb358920c1','01a215b4-ae15-77c6-badf-52b9c81a0a24','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('009876','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('son','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('rson','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('ia','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('person','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('s1','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('9','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('876','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('76','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('9876','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('on','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('s','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('09876','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('pia','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('00','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('erson','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('1','01a215b4-ae05-76e0-b747-e18e938973d5');
INSERT INTO "patient_terms" VALUES('s2','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('ther','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('009876','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('00','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('olaf','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('9','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('2','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('876','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('76','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('9876','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('her','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('s','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('af','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('09876','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('laf','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('other','01a215b4-ae14-74c6-8270-5c3bfb26b400');
INSERT INTO "patient_terms" VALUES('er','01a215b4-ae14-74c6-8270-5c3bfb26b400');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a215b4-ae05-76e0-b747-e18e938973d5','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a215b4-ae14-74c6-8270-5c3bfb26b400','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae1c-75a0-a57b-04e725f54c8b','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a215b4-ae05-76e0-b747-e18f5a0fbe2b", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a215b4-aea9-77fc-aad7-0106beb99d2a','reviews','f544271cc2c2f9b1','01a215b4-adf4-741f-be4b-c98187956fd6','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a215b4-adeb-7090-97e9-7cb773fd0c44','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$BKmGN+cfFUhuWivqZ7x0zw$U65l/8n4WpMTwcY8DNzQei4Mn4gNPWoP/rf3pkpSZqE','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a215b4-adf4-741f-be4b-c98187956fd6','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$UmVOTxmgU2+9X0R+kLEWHw$m0vz1yp9+0I+g6xqYGrqPBElWF358TVWEy2ri3vJiCY','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
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
INSERT INTO "visits" VALUES('01a215b4-ae07-75b4-804e-92acf6632204','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z',NULL,0,'01a215b4-ae07-75b4-804e-92acf6632204',NULL,'');
INSERT INTO "visits" VALUES('01a215b4-ae07-75b4-804e-92add68c8805','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z',NULL,0,'01a215b4-ae07-75b4-804e-92add68c8805',NULL,'');
INSERT INTO "visits" VALUES('01a215b4-ae15-77c6-badf-52bdecec4c71','01a215b4-ae15-77c6-badf-52b9c81a0a24','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z',NULL,0,'01a215b4-ae15-77c6-badf-52bdecec4c71',NULL,'');
INSERT INTO "visits" VALUES('01a215b4-ae15-77c6-badf-52be978eee0c','01a215b4-ae15-77c6-badf-52b9c81a0a24','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a215b4-adeb-7090-97e9-7cb773fd0c44','2027-03-02T19:00:00.000000Z',NULL,0,'01a215b4-ae15-77c6-badf-52be978eee0c',NULL,'');
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
INSERT INTO "warnings" VALUES('01a215b4-ae42-74dd-afec-0cbfdb86efdb','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae42-74dd-afec-0cbd792ec34d','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae43-7462-8d7b-50cb5f3c70d1','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae43-7462-8d7b-50c9af5fcd77','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae43-7462-8d7b-50ce7bf81a23','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae43-7462-8d7b-50ccac574adf','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae43-7462-8d7b-50d0e3c4b86c','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae43-7462-8d7b-50ccac574adf','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae4f-758b-962a-a5dd21d38dba','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4e-7207-8242-3f3327ba6e53','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae4f-758b-962a-a5e0ffd54f3a','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae4f-758b-962a-a5e35e1406ed','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5e1c8afcf6f','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae4f-758b-962a-a5e54d5b49f1','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae4f-758b-962a-a5e778809bc2','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5e1c8afcf6f','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae4f-758b-962a-a5e9363c5325','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5e1c8afcf6f','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae6b-768a-9bab-8631ccdab67d','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae6c-7087-984a-d54283e57094','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae6c-7087-984a-d544a84d76c0','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae6c-7087-984a-d5467797da27','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae70-70ed-aac2-39ce350d3604','01a215b4-ae05-76e0-b747-e18f5a0fbe2b','01a215b4-ae4f-758b-962a-a5dee8a204b4','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae7a-738d-9f1d-17dd4432502a','01a215b4-ae15-77c6-badf-52b9c81a0a24','01a215b4-ae7a-738d-9f1d-17db75f8b73e','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae7a-738d-9f1d-17e06752d60a','01a215b4-ae15-77c6-badf-52b9c81a0a24','01a215b4-ae7a-738d-9f1d-17de093e9ef7','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a215b4-ae7a-738d-9f1d-17e2d0051457','01a215b4-ae15-77c6-badf-52b9c81a0a24','01a215b4-ae7a-738d-9f1d-17de093e9ef7','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','96201d91f7f77a5b','2027-03-05T10:00:00.000000Z');
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
COMMIT;
