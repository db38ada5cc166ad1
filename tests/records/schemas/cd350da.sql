BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 06:29:40.121683+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 06:29:40.134539+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 06:29:40.148192+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 06:29:40.166332+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 06:29:40.174247+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 06:29:40.180735+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 06:29:40.190701+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 06:29:40.205911+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 06:29:40.218946+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 06:29:40.226578+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 06:29:40.319740+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 06:29:40.344114+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 06:29:40.360796+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 06:29:40.375454+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 06:29:40.392205+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m028_current_state','2026-11-26 06:29:40.447274+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m029_sessions','2026-11-26 06:29:40.502459+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m030_sealed_facts','2026-11-26 06:29:40.522776+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'followup','m031_carers_and_drops','2026-11-26 06:29:40.535326+00:00');
INSERT INTO "_sqlite_migrations" VALUES(20,'followup','m032_rights','2026-11-26 06:29:40.557022+00:00');
INSERT INTO "_sqlite_migrations" VALUES(21,'followup','m033_kept_results','2026-11-26 06:29:40.576174+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2168b-a66b-72bb-8575-be2090ddf3d0','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','be3a31d832d37ec5ced328566dcb9ec86f80af52b8a6ef94fe5c5c9f64338b5b','[["staff", "01a2168b-a66b-72bb-8575-be2090ddf3d0", "567ca8a77d2f5ac3160c5ea05b231964f8635bac8efa788a867d9ac9c3e68b6e"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a2168b-a678-7787-9b7c-a7178cb35e4b','{"role":"surgeon"}','be3a31d832d37ec5ced328566dcb9ec86f80af52b8a6ef94fe5c5c9f64338b5b','653c0085429fa358ffe0ed3e9027e6a8156eede408b13411a84f83d34cc30e1e','[["staff", "01a2168b-a678-7787-9b7c-a7178cb35e4b", "3f0fc042dd3419247871f32aecca986671f98c46c71f8e66bf65e47754ad202d"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','enrolment code','01a2168b-a680-7325-a6b9-2b1776e05412','null','653c0085429fa358ffe0ed3e9027e6a8156eede408b13411a84f83d34cc30e1e','7866f5fe31f76e72cea8f16cb9e636b1c984aad222cf837e0b91f6596da2a643','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','discharge','01a2168b-a680-7325-a6b9-2b181b6430bc','{"agent":"c2f6","eye":"right"}','7866f5fe31f76e72cea8f16cb9e636b1c984aad222cf837e0b91f6596da2a643','d11bfb66b4824076858565814025407c9be5a36632f9a51e4b88b6a48fc6e861','[["patients", "01a2168b-a680-7325-a6b9-2b1776e05412", "0839eee1d82e3aab636e4599fa0715aa004df6dab27dd6dc5aeeee73862e1442"], ["eyes", "01a2168b-a680-7325-a6b9-2b181b6430bc", "48856dd07a097c00d1632304b3cf33dc389b4218ad6f4624aee590f6ef60e0cd"], ["eyes", "01a2168b-a681-700d-9fcf-41587f6440ce", "3d64be18d8ef4cf6c79bee03aad5d81c7222980024219e636442c4e5fe27d01b"], ["operations", "01a2168b-a682-73bd-808d-1fbd370c7a5e", "4e8b3fa03a706eac364104ae7aae7f96ca3e4c36fe196dff9031b3c002747b8c"], ["operation_records", "01a2168b-a682-73bd-808d-1fbe861b41e4", "c7ccd98a2eadd0b2753df9c6507b4cc71dad23406b8c76207439027f85be8958"], ["visits", "01a2168b-a682-73bd-808d-1fbfe6867fe1", "54ce62e75ae812ca5e1864deadcd3db411aaec6f95f4396e257e5875a4f3df1a"], ["visits", "01a2168b-a683-7284-b0ac-6e18cf92b457", "614e2a6fcd4f6f122d18df17c2c30b0de8aa6f6e49429fb5a09490a36fe4a1c6"], ["follow_ups", "01a2168b-a683-7284-b0ac-6e191aa7fb84", "561e03155c1485c9f51caf508fe41979b380fc5b9aaddcd921648c3990e853fb"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','enrolment code','01a2168b-a695-75c7-92e0-88dba5903877','null','d11bfb66b4824076858565814025407c9be5a36632f9a51e4b88b6a48fc6e861','795d69bebe9af91cce938aa1fd6d9706183ae1852d183a1caa805a8d6f786f91','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','discharge','01a2168b-a695-75c7-92e0-88dca00177b6','{"agent":"silicone-oil","eye":"right"}','795d69bebe9af91cce938aa1fd6d9706183ae1852d183a1caa805a8d6f786f91','83475a26d9d0aa5069a2bd7a0f0a1640043eb4e78812ca4d3568b6a2f1c7d58e','[["patients", "01a2168b-a695-75c7-92e0-88dba5903877", "f488fb6bbb575ea86c72b5c99f04993cca6c8dec58f7205275458b940d17ebd6"], ["eyes", "01a2168b-a695-75c7-92e0-88dca00177b6", "8c6d4101485dc20638cad65156c645902fb571dda611ed58dac8025b49600693"], ["eyes", "01a2168b-a695-75c7-92e0-88dd10fa606f", "81a20b7135290ce117fe7feaf7080741e8c88c4698d85bdb2066ed26f5667952"], ["operations", "01a2168b-a695-75c7-92e0-88ded846108b", "6b80b04c5c43d587fb0f5613a932a424a3952359518fae2d3c5962f7d8f0d986"], ["operation_records", "01a2168b-a695-75c7-92e0-88dfa16c4cf2", "41c37f8fc28a5e140a21f6e06b2b81b20f8b929e106a107fced8294fa29ad6c3"], ["visits", "01a2168b-a696-740e-b3f8-5976e80c1a83", "336b2494b7f6f48db7bdca12b297282df5c7f6eaf2d212eeb0bca49b9df1b46e"], ["visits", "01a2168b-a696-740e-b3f8-5977f86a9ff8", "74ab04c57deb3e84064112871d5a90f3926408cf62da06ed89baea744bf2cb34"], ["follow_ups", "01a2168b-a696-740e-b3f8-5978e9f7001c", "3266dab06eb762222e7bc30ba9caff911d4ed13bc440ca3b4cca0a7b198cb072"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','consent given','01a2168b-a680-7325-a6b9-2b1776e05412','{"said_by":"patient","what":"phone"}','83475a26d9d0aa5069a2bd7a0f0a1640043eb4e78812ca4d3568b6a2f1c7d58e','6a403324a1fb54ca95ea3c9ace5af8d7d5f7cd0111219acd17df402e6658bcd9','[["consents", "01a2168b-a6ad-7356-aa41-19ec769536d7", "c62bb965ed392c014b2d897494de61cfa2c29ab6710979b4ba371e8c46b76a29"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a2168b-a6b9-706d-98e6-5cb346193b70','device enrolled','01a2168b-a680-7325-a6b9-2b1776e05412','null','6a403324a1fb54ca95ea3c9ace5af8d7d5f7cd0111219acd17df402e6658bcd9','755fd0af3de0d1839d1a5a327077856548b72c1e6ab83d900e7cd0f6c7682a4d','[["devices", "01a2168b-a6b9-706d-98e6-5cb346193b70", "05f5719329321a551ec8240f0dc26a0b439a9a81296ae69a3d9619d0f62b9a61"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a2168b-a6b9-706d-98e6-5cb346193b70','event posture','01a2168b-a680-7325-a6b9-2b181b6430bc','{"id":"0195e5a0-0000-7000-8000-000000000001"}','755fd0af3de0d1839d1a5a327077856548b72c1e6ab83d900e7cd0f6c7682a4d','80ccc43d54a43a0b6622e7476f96b7cee68fbbc535aa664e078c35d48e438182','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','patient:01a2168b-a6b9-706d-98e6-5cb346193b70','event symptoms','01a2168b-a680-7325-a6b9-2b181b6430bc','{"id":"0195e5a0-0000-7000-8000-000000000002"}','80ccc43d54a43a0b6622e7476f96b7cee68fbbc535aa664e078c35d48e438182','92120168ad0bf4e03db9bec00c3342290331ca14d50a7074878abe30a7061fff','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','device:01a2168b-a6b9-706d-98e6-5cb346193b70','entry refused','0195e5a0-0000-7000-8000-000000000003','null','92120168ad0bf4e03db9bec00c3342290331ca14d50a7074878abe30a7061fff','7a3e432faeb6c0c0567a38e5f1b01781765ab102e2e9651a08189afaab14e0ee','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"today","rule":"missed-early-visit"}','7a3e432faeb6c0c0567a38e5f1b01781765ab102e2e9651a08189afaab14e0ee','5256ee707efca0ad3416a610f18718a2fe24f4c85e248cd00824c8f718199d9d','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"posture-missed"}','5256ee707efca0ad3416a610f18718a2fe24f4c85e248cd00824c8f718199d9d','36e3249c3562756b87b911d6cccdae17cd360671c71567761ff73c9570e05b40','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"silent-while-posturing"}','36e3249c3562756b87b911d6cccdae17cd360671c71567761ff73c9570e05b40','28e557c00f2edd305d2fc262fe086d4a64afa317f9711cf9b4473d9adfbcac17','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"no-posture-entry"}','28e557c00f2edd305d2fc262fe086d4a64afa317f9711cf9b4473d9adfbcac17','679bfc722d48293bd2053336dd388c5c44617e5be18c4e285986872e5e412a64','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"now","rule":"infection-suspected"}','679bfc722d48293bd2053336dd388c5c44617e5be18c4e285986872e5e412a64','9c15e564eb41914143c16625217e727b044d4100863d2550f3d67e6548dde90f','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"now","rule":"severe-pain"}','9c15e564eb41914143c16625217e727b044d4100863d2550f3d67e6548dde90f','427d5d6f88e4b544e520acaf25bd249d95ee713147fe3e241c1818265d1390dd','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"today","rule":"curtain"}','427d5d6f88e4b544e520acaf25bd249d95ee713147fe3e241c1818265d1390dd','6c2fbc10b3d25272853d60b7c53d3050ff067315ae6d9b551f66eccd639e6ab3','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"today","rule":"pain"}','6c2fbc10b3d25272853d60b7c53d3050ff067315ae6d9b551f66eccd639e6ab3','ef2ddb15b3ad2bfcfde44f2a7769e8415ec132e86f86c518edad615b510ab8e2','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"today","rule":"vision-worse"}','ef2ddb15b3ad2bfcfde44f2a7769e8415ec132e86f86c518edad615b510ab8e2','46361b6cf0de49be594db5a9936f0f395ac743f5d099a0b639da3afe3fae678a','');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"vision-said-worse"}','46361b6cf0de49be594db5a9936f0f395ac743f5d099a0b639da3afe3fae678a','13b9e1d30df5d1046dd6dea41c64bc5e15c7b007b2b8b5454e4f92503d024143','[["events", "0195e5a0-0000-7000-8000-000000000001", "9097c3046447f2d3350fa463dc4b081ead216bcf20ddf391324ee6c1a60d0caf"], ["events", "0195e5a0-0000-7000-8000-000000000002", "36d881ddcb487644aa61f73e5fb8b6fa3813eeaaa2a785a94ac227d517e9d8ba"], ["refused_events", "4d062bbd5e37828f5adefd6837600fda309acb633c8db6007515b32c94aceeb6", "c56e968ee6dc6be1b0860ded5d718a94b970a9c4edad62fb35db3fc676bd2c18"], ["callbacks", "01a2168b-a6ff-7441-9f58-dd36bda53698", "f948d47763eef4837dd86bf2409db8721699874534b49e73af6ffc80bdc9d2b8"], ["callback_steps", "01a2168b-a6ff-7441-9f58-dd377a7acb86", "75ba14783ae5fde0fe8ac992550e5326f789f8569fdafd272c5ae78a8540ae83"], ["warnings", "01a2168b-a700-714d-82d5-82bcc4d7d765", "323f258c00cfa568c4e0fafb8ea9c575f007c034a9a89449d300f9a9fa8b1b24"], ["callbacks", "01a2168b-a704-72ff-b335-db5bcda996ee", "97a80cc9baf968b003680de1a5d5ae486b685e5f42233fc9adfa18906282d119"], ["callback_steps", "01a2168b-a705-74e0-95ba-236819a404af", "12ea7d587333498a3b785d5d26e01551a494f7c52eeec19a4f75ba967669fc05"], ["warnings", "01a2168b-a705-74e0-95ba-2369d49c3652", "bf0a6da939a757e8e12fea0a2e4870777f9038b6a630044eebd652d883a0618c"], ["callbacks", "01a2168b-a705-74e0-95ba-236a6f38e6c3", "bf779a78fff3f5c69d6ee57acd9c5ac48aefcc0f89cb289bfd11fa14f2470704"], ["callback_steps", "01a2168b-a705-74e0-95ba-236bcf4c5b6e", "fa8954132528372e3c841e31218cd00132a407e5c26b0b46cb0dce625a0f808a"], ["warnings", "01a2168b-a705-74e0-95ba-236cc95f8bc2", "e82d472dd6e39f334aba94deef69f56ee2d403a40c21e77114610bb0c9c410f2"], ["callback_steps", "01a2168b-a705-74e0-95ba-236de2a3be02", "e41967148c7a6248c0be509e3277e423f678c7ffb0b68077faeb87fde4e9a8fb"], ["warnings", "01a2168b-a705-74e0-95ba-236e106de147", "4fecb93cfb0efa7dbc4d3b64b762bc0609ef3f1746d67986b878004c86709333"], ["callbacks", "01a2168b-a705-74e0-95ba-236f3ea63edb", "1c514ffa9487b14224e647f9ef7bf43646ff380d1ff85c0f254ffa0a1b59078f"], ["callback_steps", "01a2168b-a706-75f6-b942-743c2d542672", "497b08a13c66be28a546a23bd4a21b5877b0485abfb6681e8a78e5fe42e628bd"], ["warnings", "01a2168b-a706-75f6-b942-743da023cf80", "17cf981a412afcdcc18c8786f74b7848d27122161902d1d94d5ef1a5ed146cd9"], ["callbacks", "01a2168b-a706-75f6-b942-743ea7e08edc", "fa0bda329dbd94237dc56c8912c249a3d7246311d7ed37be712bce66fc6e22b5"], ["callback_steps", "01a2168b-a706-75f6-b942-743f3092097f", "dff9592021cb4b7f15f50fdca9e8c9a5c60ba17f8ec9f0c7ac66609ce019da72"], ["warnings", "01a2168b-a706-75f6-b942-7440fbb4317a", "21d96acafdafeba0467e0661ab9336b83768281a6323338b11b02b0e4cd9db75"], ["callbacks", "01a2168b-a706-75f6-b942-744143025088", "725b45613cf6379962355a1041d640c62b1d13c55961f1ace57923ebe85f2aee"], ["callback_steps", "01a2168b-a706-75f6-b942-74428177170d", "2ae9d515223f2653feb3864732a1d5cbc6e7d0e5026509cbd5742be44766edbb"], ["warnings", "01a2168b-a706-75f6-b942-744357df0e87", "89bf444b0b598a725b97b705148bff31ede2a36e12dc420943a8b91dd27d1a18"], ["callback_steps", "01a2168b-a706-75f6-b942-7444cab5f695", "a3f81f4841175603575f9713cb742438f7c47cce54fa05c141fc80aea4f8277a"], ["warnings", "01a2168b-a706-75f6-b942-74456fb5d52e", "53d6741292229b92a86e3c7df184efd3881d20fed7b5db2116fa3ba5a6fc0413"], ["callback_steps", "01a2168b-a706-75f6-b942-74468d514830", "9963cb82b4fe41ee4d42ea98bd212ea5bcc09e3ded8eb11869b0d99e2337f0c1"], ["warnings", "01a2168b-a706-75f6-b942-74471fdb398f", "82f13e3a8d6e7f0d43cb224f831ed64ff50b90a21246cee32b170a2d58ada779"], ["callback_steps", "01a2168b-a707-7110-840f-48cdd39ffded", "089283f49b7916dccb83b24795102f3f3c2d2818da7939618bd3e248fb571cad"], ["warnings", "01a2168b-a707-7110-840f-48cec1aac15f", "4dcc5b0067375351532482f40b336c93a75ac3d53ab0d8634a98d4548998a6da"]]');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','event measures','01a2168b-a680-7325-a6b9-2b181b6430bc','{"id":"01a2168b-a71c-708b-a58a-0a09aae56a7b"}','13b9e1d30df5d1046dd6dea41c64bc5e15c7b007b2b8b5454e4f92503d024143','0a41103c475415a48ae24669c1a89cd918f4a5dc7215f17883569abacacdd5b0','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','event seen','01a2168b-a680-7325-a6b9-2b181b6430bc','{"id":"01a2168b-a720-76ea-baba-230321eb04fd"}','0a41103c475415a48ae24669c1a89cd918f4a5dc7215f17883569abacacdd5b0','46229620d1dc0a54755f032470b6e9ac938ef87246ab0a13e33eee8448603cd0','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"now","rule":"pressure-severe"}','46229620d1dc0a54755f032470b6e9ac938ef87246ab0a13e33eee8448603cd0','c19df832f424b1e7c0d0fc4a553b2a06ac69ece05b5bf4ed4fe6c4bd26403d7e','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"today","rule":"pressure-spike"}','c19df832f424b1e7c0d0fc4a553b2a06ac69ece05b5bf4ed4fe6c4bd26403d7e','9bb9c0a195165e6cf67b69d3ef2ce1be2e72baebfdbade104015290e7b935555','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"pressure-raised"}','9bb9c0a195165e6cf67b69d3ef2ce1be2e72baebfdbade104015290e7b935555','b35b90a21b7b0340429426c144e963fea882817365601de0c22ba8ac6ad19b07','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"pressure-rise"}','b35b90a21b7b0340429426c144e963fea882817365601de0c22ba8ac6ad19b07','3fd4bb1ac65d24ca802cb832a15cfd96fd6392633b069017012ad1047800a620','');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a680-7325-a6b9-2b181b6430bc','{"how_soon":"this-week","rule":"pressure-rising"}','3fd4bb1ac65d24ca802cb832a15cfd96fd6392633b069017012ad1047800a620','58a97f54d41566cfc059f5a1f4be9412475dbbe5ad3d55c303f1baf90411e6f2','[["events", "01a2168b-a71c-708b-a58a-0a09aae56a7b", "184a21e4ccfc9c2e5cad90d1e5380655f51594ee23020afbcdf9883699d0dd14"], ["events", "01a2168b-a720-76ea-baba-230321eb04fd", "6371546aec02dc9ca4d5f05951cde95207837cbe054084a7bc7fdf82ee45c48f"], ["callback_steps", "01a2168b-a723-7076-b0a3-ae3d8c7ffc66", "a60640d96597e9198a1298ed133348c0e4ea256eeb546104bff7a763b987d64a"], ["warnings", "01a2168b-a723-7076-b0a3-ae3e18cd5440", "d3b800de65c47e0328f5b994e1502ecaf18993e8a3432fc4dc23b4b2d7ce5df8"], ["callback_steps", "01a2168b-a723-7076-b0a3-ae3fff5a1358", "e598e85c46dfb25bf6f44f964f794979db0087adc705104ae4aa99e775b8e9d1"], ["warnings", "01a2168b-a723-7076-b0a3-ae4034690184", "4e8130994336c5c4a30da511d0e4a395256bdcdbace8d10c324fd1d6ec4dfc21"], ["callback_steps", "01a2168b-a723-7076-b0a3-ae41c018a0c4", "23825b53a0be83db7574fe377d2ba2ee5ac87b5e9f27ee7e3e2889b607cc58de"], ["warnings", "01a2168b-a723-7076-b0a3-ae42188cc90b", "95d5de618ef0851e1793a49880813298a12aa87fe36d28d50556da6c4ec01a8a"], ["callback_steps", "01a2168b-a723-7076-b0a3-ae43652d95a2", "a31cab6fc7f8eff8154bce4a4d1487f875feafa085db2cd311afd28c70004025"], ["warnings", "01a2168b-a723-7076-b0a3-ae4498a0ecf7", "7007c87218c951dba6a6011da9219a719e675fc5f6399cc0ebce5dedbd93e971"], ["callback_steps", "01a2168b-a724-71cf-af0b-60f3af98c621", "f64bd38625d2833389c0297467387887343ea346709f7221ea8f468518456721"], ["warnings", "01a2168b-a724-71cf-af0b-60f446d0d490", "b567c0d2319e91d352375648bbd4c90afcdfd0887844ca245873e920c66ee259"]]');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','event measures','01a2168b-a695-75c7-92e0-88dca00177b6','{"id":"01a2168b-a739-74d6-992d-e8b964d46788"}','58a97f54d41566cfc059f5a1f4be9412475dbbe5ad3d55c303f1baf90411e6f2','33455c625b62ee88a28874e4cb9cf2dd86293f5e24f14eacfdc3edbc2efc4311','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a695-75c7-92e0-88dca00177b6','{"how_soon":"today","rule":"missed-early-visit"}','33455c625b62ee88a28874e4cb9cf2dd86293f5e24f14eacfdc3edbc2efc4311','a3334e81716ede55bfa3633b1501b65420b07a1e6d819e279785aa0965990593','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a695-75c7-92e0-88dca00177b6','{"how_soon":"this-week","rule":"no-posture-entry"}','a3334e81716ede55bfa3633b1501b65420b07a1e6d819e279785aa0965990593','713790d9276c4f6460bc325c341e3c0d9b48862ce2b0926a522f77b47f44c489','');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a2168b-a695-75c7-92e0-88dca00177b6','{"how_soon":"this-week","rule":"silent-while-posturing"}','713790d9276c4f6460bc325c341e3c0d9b48862ce2b0926a522f77b47f44c489','d6b3ba96aa71290549c44ab927a3964d775114468dbae3f8dd9794e90aed4557','[["events", "01a2168b-a739-74d6-992d-e8b964d46788", "d3b08630124c5ec8655a4a397469ecf2dd5b306e3c5b3edb3dcd801a25c569ef"], ["callbacks", "01a2168b-a73a-7095-a6e7-94dfae3ecb49", "2df4dc9de5650207f95ef74b60d0ffd96c9dac19e3b612212c36dd4bb3a5898f"], ["callback_steps", "01a2168b-a73a-7095-a6e7-94e0789e9834", "7a81345be872e8b9839981ecab47cc75c6aa73cd4b7ff268574b799338438a7b"], ["warnings", "01a2168b-a73a-7095-a6e7-94e1c300e256", "a327876a0ea01dfe454c148378a6dab417ac993b92d3382b8226d60e8058121c"], ["callbacks", "01a2168b-a73a-7095-a6e7-94e26f60dbb2", "96afa2838de4f84bb54c83f6981ed254de5b8991133f6d88db59e54f91e7d6d0"], ["callback_steps", "01a2168b-a73a-7095-a6e7-94e33bbe24c9", "cbcad7c91954b9fdd291ddf307658cec26959ea0fc341a1c241b9d48990fb08a"], ["warnings", "01a2168b-a73a-7095-a6e7-94e4411cc603", "1395469d5a6e99d5c42a195f8a9540359ae504dcbe43c2dcfb97a050f4a83ed4"], ["callback_steps", "01a2168b-a73b-72f1-aaac-a86ed39188e4", "a539744bd541fd2dd06bed507d51f05c9d6978d860cbf5452f5c8b7bf9dbd2ba"], ["warnings", "01a2168b-a73b-72f1-aaac-a86fb23ecf46", "314a84485f63870064cf58a24de083242aef0cd2b3a51cb4a8d6e00a6b2b6340"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','callback claimed','01a2168b-a705-74e0-95ba-236f3ea63edb','null','d6b3ba96aa71290549c44ab927a3964d775114468dbae3f8dd9794e90aed4557','3a5cd7010adeeda1da8d85ecfd25f61a771abd1d9724848b6d5d1671143c253a','[["callbacks", "01a2168b-a705-74e0-95ba-236f3ea63edb", "e5ef65e7c354a7f7134d3f75c8dd6f24b88780d06abf08a1eed66e5268c1f99d"], ["callback_steps", "01a2168b-a757-705e-bd25-608e76d60d2e", "1c853c44c8f1d5bd4d2d87b7686cd4c3bc5c3bcf6eadee8f0395ea7219989497"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','callback attempt','01a2168b-a705-74e0-95ba-236f3ea63edb','{"reached":true}','3a5cd7010adeeda1da8d85ecfd25f61a771abd1d9724848b6d5d1671143c253a','99739448d5371e3bce64b874e78b2aa31c31875e058defe589efb333728d8672','[["events", "01a2168b-a767-7139-96db-a5142a4d86ff", "22f26cf1254b8f8b0fd5ba2d87311f43e6b47a09938bf59ffd75fa3af2c2dcdf"], ["callback_steps", "01a2168b-a767-7139-96db-a515e727425d", "5f2fd0ad377128a1e753fc9eb8e2164ba95c30dea2945d167823d2cd38d64bc9"], ["callbacks", "01a2168b-a705-74e0-95ba-236f3ea63edb", "e5ef65e7c354a7f7134d3f75c8dd6f24b88780d06abf08a1eed66e5268c1f99d"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','callback settled','01a2168b-a705-74e0-95ba-236f3ea63edb','{"outcome":"advice"}','99739448d5371e3bce64b874e78b2aa31c31875e058defe589efb333728d8672','df834099eab3dc6d00cdeef680f94cf55da27796c4872cba448154277185bcb5','[["callbacks", "01a2168b-a705-74e0-95ba-236f3ea63edb", "f9a99544dcc3556339f46c01d38ef61bbb1526207f31efbfd1d1facde14e259d"], ["callback_steps", "01a2168b-a779-77e4-b9be-71487318ba0a", "9cc5e50910c9c258f4d296fbba0bcafcbe9d97268a00698ce0b8d136e1c151c9"]]');
INSERT INTO "audit" VALUES(36,'2027-03-05T10:00:00.000000Z','surgeon:01a2168b-a678-7787-9b7c-a7178cb35e4b','protocol signed','reviews','{"fingerprint":"51499c130f73c9d0"}','df834099eab3dc6d00cdeef680f94cf55da27796c4872cba448154277185bcb5','1343f83988a9eaf7c64344330e2242895daf95ede885f1e137105012b7773d5a','[["signatures", "01a2168b-a783-76ea-b601-65bb0c70c650", "8e2a280f69536fedb06b0fe52ac917b78cbffd78c65b824dba718e035bf61a60"]]');
CREATE TABLE call_people (
            who TEXT NOT NULL, patient_id TEXT NOT NULL, PRIMARY KEY (who, patient_id)
        ) STRICT, WITHOUT ROWID;
CREATE TABLE call_states (
            patient_id TEXT PRIMARY KEY, urgency INTEGER NOT NULL, since TEXT NOT NULL, first TEXT NOT NULL,
            level INTEGER NOT NULL, decided INTEGER NOT NULL
        ) STRICT;
CREATE TABLE callback_steps (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks, at TEXT NOT NULL, who TEXT NOT NULL,
            step TEXT NOT NULL, detail TEXT NOT NULL
        ) STRICT;
INSERT INTO "callback_steps" VALUES('01a2168b-a6ff-7441-9f58-dd377a7acb86','01a2168b-a6ff-7441-9f58-dd36bda53698','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a705-74e0-95ba-236819a404af','01a2168b-a704-72ff-b335-db5bcda996ee','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a705-74e0-95ba-236bcf4c5b6e','01a2168b-a705-74e0-95ba-236a6f38e6c3','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a705-74e0-95ba-236de2a3be02','01a2168b-a705-74e0-95ba-236a6f38e6c3','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a706-75f6-b942-743c2d542672','01a2168b-a705-74e0-95ba-236f3ea63edb','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a706-75f6-b942-743f3092097f','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a706-75f6-b942-74428177170d','01a2168b-a706-75f6-b942-744143025088','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a706-75f6-b942-7444cab5f695','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a706-75f6-b942-74468d514830','01a2168b-a706-75f6-b942-744143025088','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a707-7110-840f-48cdd39ffded','01a2168b-a706-75f6-b942-744143025088','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a723-7076-b0a3-ae3d8c7ffc66','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a723-7076-b0a3-ae3fff5a1358','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a723-7076-b0a3-ae41c018a0c4','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a723-7076-b0a3-ae43652d95a2','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a724-71cf-af0b-60f3af98c621','01a2168b-a706-75f6-b942-743ea7e08edc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a73a-7095-a6e7-94e0789e9834','01a2168b-a73a-7095-a6e7-94dfae3ecb49','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a73a-7095-a6e7-94e33bbe24c9','01a2168b-a73a-7095-a6e7-94e26f60dbb2','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a73b-72f1-aaac-a86ed39188e4','01a2168b-a73a-7095-a6e7-94e26f60dbb2','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a2168b-a757-705e-bd25-608e76d60d2e','01a2168b-a705-74e0-95ba-236f3ea63edb','2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a2168b-a767-7139-96db-a515e727425d','01a2168b-a705-74e0-95ba-236f3ea63edb','2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a2168b-a779-77e4-b9be-71487318ba0a','01a2168b-a705-74e0-95ba-236f3ea63edb','2027-03-05T10:00:00.000000Z','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a2168b-a6ff-7441-9f58-dd36bda53698','01a2168b-a680-7325-a6b9-2b181b6430bc','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a704-72ff-b335-db5bcda996ee','01a2168b-a680-7325-a6b9-2b181b6430bc','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a705-74e0-95ba-236a6f38e6c3','01a2168b-a680-7325-a6b9-2b181b6430bc','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a705-74e0-95ba-236f3ea63edb','01a2168b-a680-7325-a6b9-2b181b6430bc','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a2168b-a66b-72bb-8575-be2090ddf3d0',NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a706-75f6-b942-743ea7e08edc','01a2168b-a680-7325-a6b9-2b181b6430bc','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a706-75f6-b942-744143025088','01a2168b-a680-7325-a6b9-2b181b6430bc','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a73a-7095-a6e7-94dfae3ecb49','01a2168b-a695-75c7-92e0-88dca00177b6','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a2168b-a73a-7095-a6e7-94e26f60dbb2','01a2168b-a695-75c7-92e0-88dca00177b6','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "changed_patients" VALUES('01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "changed_patients" VALUES('01a2168b-a695-75c7-92e0-88dba5903877');
CREATE TABLE changed_results (patient_id TEXT PRIMARY KEY, version TEXT NOT NULL) STRICT, WITHOUT ROWID;
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
INSERT INTO "consents" VALUES('01a2168b-a6ad-7356-aa41-19ec769536d7','01a2168b-a680-7325-a6b9-2b1776e05412','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "devices" VALUES('01a2168b-a6b9-706d-98e6-5cb346193b70','01a2168b-a680-7325-a6b9-2b1776e05412','5cfca2f682237a489cb3b2663dadb26e5f2dd5e74d7791670b3bceb398001265','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL,'');
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "enrolments" VALUES('01a2168b-a683-7284-b0ac-6e1a9ec1d365','01a2168b-a680-7325-a6b9-2b1776e05412','b812bbf4daea7d4238720e6dafbd96fb205fdebc222f5f68714c438336f44398','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0,'');
INSERT INTO "enrolments" VALUES('01a2168b-a696-740e-b3f8-5979196e8b15','01a2168b-a695-75c7-92e0-88dba5903877','22efce02b936aada70bd158e4bb91f30f59fef1db428de25250adc950c4bf156','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0,'');
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a2168b-a680-7325-a6b9-2b181b6430bc','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a2168b-a6b9-706d-98e6-5cb346193b70','01a2168b-a6b9-706d-98e6-5cb346193b70',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a2168b-a680-7325-a6b9-2b181b6430bc','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a2168b-a6b9-706d-98e6-5cb346193b70','01a2168b-a6b9-706d-98e6-5cb346193b70',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2168b-a71c-708b-a58a-0a09aae56a7b','01a2168b-a680-7325-a6b9-2b181b6430bc','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2168b-a720-76ea-baba-230321eb04fd','01a2168b-a680-7325-a6b9-2b181b6430bc','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a2168b-a682-73bd-808d-1fbfe6867fe1"}','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2168b-a739-74d6-992d-e8b964d46788','01a2168b-a695-75c7-92e0-88dca00177b6','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a2168b-a767-7139-96db-a5142a4d86ff','01a2168b-a680-7325-a6b9-2b181b6430bc','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
CREATE TABLE eye_results (
            eye_id TEXT PRIMARY KEY, patient_id TEXT NOT NULL, since TEXT, until TEXT,
            operated_at TEXT NOT NULL, state TEXT, once INTEGER, last_logmar REAL,
            visits INTEGER NOT NULL, visits_seen INTEGER NOT NULL, calls INTEGER NOT NULL, calls_in_time INTEGER NOT NULL,
            hours_to_claim TEXT NOT NULL
        ) STRICT, WITHOUT ROWID;
CREATE TABLE eye_states (
            eye_id TEXT PRIMARY KEY, patient_id TEXT NOT NULL, version TEXT NOT NULL, look_at TEXT NOT NULL DEFAULT '',
            agent TEXT NOT NULL, operated_at TEXT NOT NULL, posture_from TEXT, posture_until TEXT,
            next_visit TEXT, next_earliest TEXT, next_target TEXT, next_latest TEXT,
            how_soon TEXT, worry TEXT NOT NULL, worry_since TEXT, worry_due_at TEXT, reason TEXT NOT NULL,
            last_heard TEXT, last_measures TEXT
        ) STRICT;
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a680-7325-a6b9-2b1776e05412','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a2168b-a681-700d-9fcf-41587f6440ce','01a2168b-a680-7325-a6b9-2b1776e05412','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a2168b-a695-75c7-92e0-88dca00177b6','01a2168b-a695-75c7-92e0-88dba5903877','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a2168b-a695-75c7-92e0-88dd10fa606f','01a2168b-a695-75c7-92e0-88dba5903877','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a2168b-a683-7284-b0ac-6e191aa7fb84','01a2168b-a680-7325-a6b9-2b181b6430bc','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0');
INSERT INTO "follow_ups" VALUES('01a2168b-a696-740e-b3f8-5978e9f7001c','01a2168b-a695-75c7-92e0-88dca00177b6','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0');
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
INSERT INTO "operation_records" VALUES('01a2168b-a682-73bd-808d-1fbe861b41e4','01a2168b-a682-73bd-808d-1fbd370c7a5e','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a2168b-a695-75c7-92e0-88dfa16c4cf2','01a2168b-a695-75c7-92e0-88ded846108b','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operation_results (
            operation_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, number INTEGER NOT NULL,
            surgeon TEXT NOT NULL, agent TEXT NOT NULL, indication TEXT NOT NULL, day TEXT NOT NULL,
            counted_from TEXT, last_look TEXT, detached_at TEXT, days_followed REAL, detached INTEGER,
            under_liquid INTEGER NOT NULL, highest_early_mmhg REAL, before_logmar REAL, sight TEXT
        ) STRICT, WITHOUT ROWID;
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a2168b-a682-73bd-808d-1fbd370c7a5e','01a2168b-a680-7325-a6b9-2b181b6430bc','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a2168b-a695-75c7-92e0-88ded846108b','01a2168b-a695-75c7-92e0-88dca00177b6','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('ia','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('009876','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('s1','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('person','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('s','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('09876','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('pia','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('erson','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('son','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('00','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('76','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('1','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('on','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('9','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('rson','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('876','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('9876','01a2168b-a680-7325-a6b9-2b1776e05412');
INSERT INTO "patient_terms" VALUES('af','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('er','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('ther','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('009876','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('her','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('s','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('2','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('other','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('09876','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('olaf','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('00','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('s2','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('76','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('laf','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('9','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('876','01a2168b-a695-75c7-92e0-88dba5903877');
INSERT INTO "patient_terms" VALUES('9876','01a2168b-a695-75c7-92e0-88dba5903877');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a2168b-a680-7325-a6b9-2b1776e05412','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a2168b-a695-75c7-92e0-88dba5903877','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a6b9-706d-98e6-5cb346193b70','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a2168b-a680-7325-a6b9-2b181b6430bc", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a2168b-a783-76ea-b601-65bb0c70c650','reviews','51499c130f73c9d0','01a2168b-a678-7787-9b7c-a7178cb35e4b','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER) STRICT;
INSERT INTO "staff" VALUES('01a2168b-a66b-72bb-8575-be2090ddf3d0','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$ukH/HJgOuO27wryjue06Fw$BPPTBLQCqlt9oQJKWkaDT91FrCifNeUTIS/YoMcYrps','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL);
INSERT INTO "staff" VALUES('01a2168b-a678-7787-9b7c-a7178cb35e4b','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$Nno+LqEjjC/UuatZ/4oG1g$JsMc5d7GQTQmAaEQg6JrQDpnnfWI5LFAp/C/Ms1tbCw','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL);
CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE visit_states (
            identity TEXT PRIMARY KEY, visit_id TEXT NOT NULL, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL,
            target TEXT NOT NULL, latest TEXT NOT NULL, hour TEXT NOT NULL, urgency INTEGER NOT NULL, name TEXT NOT NULL,
            waited INTEGER NOT NULL, away INTEGER NOT NULL, seen_at TEXT, here_at TEXT, arrival TEXT NOT NULL
        ) STRICT;
CREATE TABLE visits (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", name TEXT NOT NULL,
            target TEXT NOT NULL, earliest TEXT NOT NULL, latest TEXT NOT NULL, reason TEXT NOT NULL,
            recorded_by TEXT NOT NULL, recorded_at TEXT NOT NULL, replaces TEXT REFERENCES visits,
            withdrawn INTEGER NOT NULL DEFAULT 0
        , identity TEXT NOT NULL DEFAULT '', starts TEXT
            CHECK (starts IS NULL OR (starts GLOB '[0-2][0-9]:[0-5][0-9]' AND starts < '24:00')), why TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "visits" VALUES('01a2168b-a682-73bd-808d-1fbfe6867fe1','01a2168b-a680-7325-a6b9-2b181b6430bc','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z',NULL,0,'01a2168b-a682-73bd-808d-1fbfe6867fe1',NULL,'');
INSERT INTO "visits" VALUES('01a2168b-a683-7284-b0ac-6e18cf92b457','01a2168b-a680-7325-a6b9-2b181b6430bc','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z',NULL,0,'01a2168b-a683-7284-b0ac-6e18cf92b457',NULL,'');
INSERT INTO "visits" VALUES('01a2168b-a696-740e-b3f8-5976e80c1a83','01a2168b-a695-75c7-92e0-88dca00177b6','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z',NULL,0,'01a2168b-a696-740e-b3f8-5976e80c1a83',NULL,'');
INSERT INTO "visits" VALUES('01a2168b-a696-740e-b3f8-5977f86a9ff8','01a2168b-a695-75c7-92e0-88dca00177b6','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a2168b-a66b-72bb-8575-be2090ddf3d0','2027-03-02T19:00:00.000000Z',NULL,0,'01a2168b-a696-740e-b3f8-5977f86a9ff8',NULL,'');
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
INSERT INTO "warnings" VALUES('01a2168b-a700-714d-82d5-82bcc4d7d765','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a6ff-7441-9f58-dd36bda53698','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a705-74e0-95ba-2369d49c3652','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a704-72ff-b335-db5bcda996ee','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12.0}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a705-74e0-95ba-236cc95f8bc2','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a705-74e0-95ba-236a6f38e6c3','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a705-74e0-95ba-236e106de147','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a705-74e0-95ba-236a6f38e6c3','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a706-75f6-b942-743da023cf80','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a705-74e0-95ba-236f3ea63edb','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a706-75f6-b942-7440fbb4317a','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a706-75f6-b942-744357df0e87','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-744143025088','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a706-75f6-b942-74456fb5d52e','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a706-75f6-b942-74471fdb398f','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-744143025088','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a707-7110-840f-48cec1aac15f','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-744143025088','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a723-7076-b0a3-ae3e18cd5440','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a723-7076-b0a3-ae4034690184','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a723-7076-b0a3-ae42188cc90b','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a723-7076-b0a3-ae4498a0ecf7','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15.0,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a724-71cf-af0b-60f446d0d490','01a2168b-a680-7325-a6b9-2b181b6430bc','01a2168b-a706-75f6-b942-743ea7e08edc','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15.0}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a73a-7095-a6e7-94e1c300e256','01a2168b-a695-75c7-92e0-88dca00177b6','01a2168b-a73a-7095-a6e7-94dfae3ecb49','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a73a-7095-a6e7-94e4411cc603','01a2168b-a695-75c7-92e0-88dca00177b6','01a2168b-a73a-7095-a6e7-94e26f60dbb2','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a2168b-a73b-72f1-aaac-a86fb23ecf46','01a2168b-a695-75c7-92e0-88dca00177b6','01a2168b-a73a-7095-a6e7-94e26f60dbb2','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
CREATE TABLE wish_states (
            event_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, at TEXT NOT NULL, visit TEXT NOT NULL,
            identity TEXT, words TEXT NOT NULL
        ) STRICT;
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
CREATE INDEX eye_states_of_patient ON eye_states (patient_id);
CREATE INDEX eyes_to_look_at ON eye_states (look_at);
CREATE INDEX eyes_posturing ON eye_states (posture_until) WHERE posture_until IS NOT NULL;
CREATE INDEX visit_states_of_patient ON visit_states (patient_id);
CREATE INDEX visits_waited ON visit_states (target, hour, urgency, name, identity, latest, away, here_at) WHERE waited;
CREATE INDEX visits_here ON visit_states (here_at) WHERE waited AND here_at IS NOT NULL;
CREATE INDEX visits_seen ON visit_states (seen_at) WHERE seen_at IS NOT NULL;
CREATE INDEX visits_unseen ON visit_states (target) WHERE seen_at IS NULL;
CREATE INDEX wish_states_of_patient ON wish_states (patient_id);
CREATE INDEX wishes_in_order ON wish_states (at, event_id);
CREATE INDEX calls_in_order ON call_states (urgency, since, first, level, decided, patient_id);
CREATE INDEX calls_counted ON call_states (urgency, level, decided);
CREATE INDEX people_of_call ON call_people (patient_id);
CREATE INDEX events_off_time ON events (eye_id) WHERE NOT (at GLOB '[12][0-9][0-9][0-9]-*' AND at BETWEEN '1900' AND '2201');
CREATE INDEX records_off_time ON operation_records (operation_id) WHERE NOT (operated_at GLOB '[12][0-9][0-9][0-9]-*' AND operated_at BETWEEN '1900' AND '2201');
CREATE INDEX visits_off_time ON visits (eye_id) WHERE NOT ((target GLOB '[12][0-9][0-9][0-9]-*' AND target BETWEEN '1900' AND '2201') AND (earliest GLOB '[12][0-9][0-9][0-9]-*' AND earliest BETWEEN '1900' AND '2201') AND (latest GLOB '[12][0-9][0-9][0-9]-*' AND latest BETWEEN '1900' AND '2201'));
CREATE INDEX events_of_clinic ON events (at) WHERE kind IN ('seen', 'measures', 'did-not-come');
CREATE INDEX refused_by_time ON refused_events (received_at);
CREATE INDEX visits_untold ON visits_to_tell (made_at) WHERE told_at IS NULL;
CREATE INDEX callbacks_of_eye ON callbacks (eye_id, opened_at);
CREATE INDEX callbacks_moved_up ON callbacks (due_at) WHERE state != 'settled' AND level > 0;
CREATE INDEX callbacks_for_now ON callbacks (opened_at) WHERE state != 'settled' AND how_soon = 'now' AND level = 0;
CREATE INDEX callbacks_silent ON callbacks (opened_at) WHERE state != 'settled' AND worry = 'silence';
CREATE INDEX callbacks_settled ON callbacks (settled_at) WHERE settled_at IS NOT NULL;
CREATE INDEX tasks_open ON tasks (owner) WHERE done_at IS NULL;
CREATE INDEX steps_by_kind ON callback_steps (step, at);
CREATE INDEX eyes_followed ON eyes (patient_id) WHERE followed_since IS NOT NULL AND ended_at IS NULL;
CREATE TRIGGER visits_changed_insert AFTER INSERT ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER visits_changed_update AFTER UPDATE ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER visits_changed_delete AFTER DELETE ON visits BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER events_changed_insert AFTER INSERT ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER events_changed_update AFTER UPDATE ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER events_changed_delete AFTER DELETE ON events BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER warnings_changed_insert AFTER INSERT ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER warnings_changed_update AFTER UPDATE ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER warnings_changed_delete AFTER DELETE ON warnings BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER follow_ups_changed_insert AFTER INSERT ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER follow_ups_changed_update AFTER UPDATE ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER follow_ups_changed_delete AFTER DELETE ON follow_ups BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER callbacks_changed_insert AFTER INSERT ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER callbacks_changed_update AFTER UPDATE ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER callbacks_changed_delete AFTER DELETE ON callbacks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER tasks_changed_insert AFTER INSERT ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER tasks_changed_update AFTER UPDATE ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER tasks_changed_delete AFTER DELETE ON tasks BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER operations_changed_insert AFTER INSERT ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER operations_changed_update AFTER UPDATE ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = NEW.eye_id; END;
CREATE TRIGGER operations_changed_delete AFTER DELETE ON operations BEGIN INSERT OR IGNORE INTO changed_patients SELECT patient_id FROM eyes WHERE id = OLD.eye_id; END;
CREATE TRIGGER operation_records_changed_insert AFTER INSERT ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = NEW.operation_id; END;
CREATE TRIGGER operation_records_changed_update AFTER UPDATE ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = OLD.operation_id; INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = NEW.operation_id; END;
CREATE TRIGGER operation_records_changed_delete AFTER DELETE ON operation_records BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = OLD.operation_id; END;
CREATE TRIGGER warning_grounds_changed_insert AFTER INSERT ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = NEW.warning_id; END;
CREATE TRIGGER warning_grounds_changed_update AFTER UPDATE ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = OLD.warning_id; INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = NEW.warning_id; END;
CREATE TRIGGER warning_grounds_changed_delete AFTER DELETE ON warning_grounds BEGIN INSERT OR IGNORE INTO changed_patients SELECT e.patient_id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE w.id = OLD.warning_id; END;
CREATE TRIGGER patients_changed_insert AFTER INSERT ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT NEW.id; END;
CREATE TRIGGER patients_changed_update AFTER UPDATE ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.id; INSERT OR IGNORE INTO changed_patients SELECT NEW.id; END;
CREATE TRIGGER patients_changed_delete AFTER DELETE ON patients BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.id; END;
CREATE TRIGGER eyes_changed_insert AFTER INSERT ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT NEW.patient_id; END;
CREATE TRIGGER eyes_changed_update AFTER UPDATE ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.patient_id; INSERT OR IGNORE INTO changed_patients SELECT NEW.patient_id; END;
CREATE TRIGGER eyes_changed_delete AFTER DELETE ON eyes BEGIN INSERT OR IGNORE INTO changed_patients SELECT OLD.patient_id; END;
CREATE TRIGGER protocol_texts_changed AFTER INSERT ON protocol_texts BEGIN UPDATE eye_states SET look_at = ''; END;
CREATE INDEX sessions_of_staff ON sessions (staff_id, ended_at);
CREATE INDEX pages_opened_by_time ON pages_opened (at);
CREATE INDEX pages_opened_about ON pages_opened (about, at);
CREATE TRIGGER pages_opened_keeps_update BEFORE UPDATE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE TRIGGER pages_opened_keeps_delete BEFORE DELETE ON pages_opened BEGIN SELECT RAISE(ABORT, 'pages_opened is append-only: record a correction instead'); END;
CREATE INDEX listed_by_day ON listed_operations (operated_on);
CREATE INDEX consents_of_patient ON consents (patient_id, what, at);
CREATE TRIGGER consents_keeps_update BEFORE UPDATE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
CREATE TRIGGER consents_keeps_delete BEFORE DELETE ON consents BEGIN SELECT RAISE(ABORT, 'consents is append-only: record a correction instead'); END;
CREATE INDEX eye_results_of_patient ON eye_results (patient_id);
CREATE INDEX eye_results_since ON eye_results (since) WHERE since IS NOT NULL;
CREATE INDEX eye_results_until ON eye_results (until) WHERE until IS NOT NULL;
CREATE INDEX operation_results_of_patient ON operation_results (patient_id);
CREATE INDEX operation_results_of_eye ON operation_results (eye_id, number);
CREATE INDEX operation_results_by_surgeon ON operation_results (surgeon, day);
COMMIT;
