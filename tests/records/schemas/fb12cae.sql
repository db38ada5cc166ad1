BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 06:54:34.395268+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 06:54:34.423934+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 06:54:34.467779+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 06:54:34.497712+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 06:54:34.523608+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 06:54:34.548983+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 06:54:34.566166+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 06:54:34.589825+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 06:54:34.617922+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 06:54:34.637765+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 06:54:34.930619+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 06:54:34.938065+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 06:54:34.973369+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 06:54:34.999922+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 06:54:35.015450+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m028_current_state','2026-11-26 06:54:35.064210+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m029_sessions','2026-11-26 06:54:35.230890+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m030_sealed_facts','2026-11-26 06:54:35.282496+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'followup','m031_carers_and_drops','2026-11-26 06:54:35.312245+00:00');
INSERT INTO "_sqlite_migrations" VALUES(20,'followup','m032_rights','2026-11-26 06:54:35.314447+00:00');
INSERT INTO "_sqlite_migrations" VALUES(21,'followup','m033_kept_results','2026-11-26 06:54:35.327018+00:00');
INSERT INTO "_sqlite_migrations" VALUES(22,'followup','m034_theatre','2026-11-26 06:54:35.376474+00:00');
INSERT INTO "_sqlite_migrations" VALUES(23,'followup','m035_passkeys','2026-11-26 06:54:35.430415+00:00');
INSERT INTO "_sqlite_migrations" VALUES(24,'followup','m036_reminded_by_time','2026-11-26 06:54:35.493966+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a216a2-7642-74d8-8955-3255f423b652','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','f2858f896d7819b5fe7c49a9e6bca43087e7c6142b525d05d2261b3b8f319dc4','[["staff", "01a216a2-7642-74d8-8955-3255f423b652", "b4bf497071ae8e354a29b7c6496923050b24df42ac15d3f519bc315a34a9bbe6"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a216a2-765d-710c-9bd7-dd4797507e6c','{"role":"surgeon"}','f2858f896d7819b5fe7c49a9e6bca43087e7c6142b525d05d2261b3b8f319dc4','37384e1108b8c0d48e5f52b2c42649a1027f5dd8238e17b3804ba2ac21bd883c','[["staff", "01a216a2-765d-710c-9bd7-dd4797507e6c", "91ae18b5ebd012dd1f047f0409e79b8b61cd11e405684876daea22269dd63931"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','enrolment code','01a216a2-766f-72f7-8973-248f4be1323c','null','37384e1108b8c0d48e5f52b2c42649a1027f5dd8238e17b3804ba2ac21bd883c','68c6572c14407d14ec0392a46c0735827825673515b16a88261e349303fb0f0d','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','discharge','01a216a2-766f-72f7-8973-2490baeee0b4','{"agent":"c2f6","eye":"right"}','68c6572c14407d14ec0392a46c0735827825673515b16a88261e349303fb0f0d','e4675765efa4588653587f28c7818b38ab01b4f56fe3380fffb9b7d96f69a367','[["patients", "01a216a2-766f-72f7-8973-248f4be1323c", "971c968fc64ee3e8c73ecea4b6ae406eff715d121e6d24a2d1bf641d104e2c2a"], ["eyes", "01a216a2-766f-72f7-8973-2490baeee0b4", "b012fc7252e2419c1d1397b4f4171799b935cb28c8a937d090f0113fe695a444"], ["eyes", "01a216a2-766f-72f7-8973-249143194e35", "01ef609c8ff28c5f105f5e5711130901d1af609ce371288618ffe1eaf1f1f2ad"], ["operations", "01a216a2-7682-7383-9e06-586a6972bfc5", "e7d2a781e824f6f89dfadd3c5afaf6302952bb3febe508c22ce732738e525f13"], ["operation_records", "01a216a2-7695-7157-ba82-6b48b59f6e3b", "73593218426b080a311a25ad2b0d2457f9a3be6a03e628fb3f1b18e799ce8f03"], ["visits", "01a216a2-7696-732d-b4b3-e4b1e9e9ab0d", "59ae104a8aafc625520667ce6d29fce0518b103bb8cc78f8265a501901de41dd"], ["visits", "01a216a2-7696-732d-b4b3-e4b2b79bbb99", "57b6157adfe556a1093df9241e96513925a5d8300840d8462f66d8feb2a01af5"], ["follow_ups", "01a216a2-7696-732d-b4b3-e4b31d4d277a", "4ec7d1ed2bb7feaba1d784709df1e94d267d50b41f3eafcad4c66203bbc0c2ed"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','enrolment code','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6','null','e4675765efa4588653587f28c7818b38ab01b4f56fe3380fffb9b7d96f69a367','85f33da56a25fc441590456c1a9ec5146aff6619c6d6e427d816ee21f7f9d30a','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','discharge','01a216a2-76b6-704f-bbf2-75e7cb063a29','{"agent":"silicone-oil","eye":"right"}','85f33da56a25fc441590456c1a9ec5146aff6619c6d6e427d816ee21f7f9d30a','3ac497b23e8a16396229511fc36b4f3ddd037963a26c64372081c8d2c03c2a24','[["patients", "01a216a2-76b6-704f-bbf2-75e6fcc7fbf6", "76a99c324b57c350fd71e7726edfa4cbb0253c0aaa2047dffbee8886672ae4a0"], ["eyes", "01a216a2-76b6-704f-bbf2-75e7cb063a29", "2ac4f547fa64082f18ea1edd41a18ec8f6597a3d023ea6202c5cc39db4d65203"], ["eyes", "01a216a2-76b6-704f-bbf2-75e8828abcbf", "0377d0dbafdcc012595bb9427cb86b22822c1721520d62817fca678904ea3e58"], ["operations", "01a216a2-76b7-72b1-991e-f005042b5bb9", "4ec3514233c4a4ecf0cdfd69558a881ad259ac70ff4e9ef9f6c6043b80beca09"], ["operation_records", "01a216a2-76b7-72b1-991e-f006d9b594c2", "b0814dc6b91a27183ebc9019788c6083d68a93ab03e8f03f162a55a0d9af09dc"], ["visits", "01a216a2-76b8-7550-ad2d-802cbbb89e67", "d0c3e00e5d7bfe9bd31e10bbb3e97ad1fe931f9097eb414dff4138e7d8ca07d5"], ["visits", "01a216a2-76b8-7550-ad2d-802dc4758ad4", "0cec14ec155561162e6da7df85274ea91ed031fb1ee02053c7595cefc6f061c0"], ["follow_ups", "01a216a2-76d0-75fc-b932-9d13ff853846", "d52f82ab13f32b0024a0e0aab742e6ce623b8b031b4cb16395b395aec5ab494d"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','consent given','01a216a2-766f-72f7-8973-248f4be1323c','{"said_by":"patient","what":"phone"}','3ac497b23e8a16396229511fc36b4f3ddd037963a26c64372081c8d2c03c2a24','0169c64c70fb3ebe095cfb0a7d1263b8cba0cb6696b7874ea452d2c8d3138c46','[["consents", "01a216a2-76f5-71dc-9d64-a5941946d0e6", "bf721564123c8f5897a3a25b4e7f3e61e5d2c5805468b1aad52a701e2e2a7cb1"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a216a2-770a-7455-b61b-62470c092942','device enrolled','01a216a2-766f-72f7-8973-248f4be1323c','null','0169c64c70fb3ebe095cfb0a7d1263b8cba0cb6696b7874ea452d2c8d3138c46','37ec4f33d6d5781183ce5451c56d8fbf59c28293ee8fc710411f3b21b1483128','[["devices", "01a216a2-770a-7455-b61b-62470c092942", "6c20778e5d49a0315a65ea6723f00c647f728a8cc34819005fa634a32c337d46"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a216a2-770a-7455-b61b-62470c092942','event posture','01a216a2-766f-72f7-8973-2490baeee0b4','{"id":"0195e5a0-0000-7000-8000-000000000001"}','37ec4f33d6d5781183ce5451c56d8fbf59c28293ee8fc710411f3b21b1483128','6c154f742b78d9032395bdac89d0230db8a768fa85fe9d9ac50a7773e6adaefc','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','patient:01a216a2-770a-7455-b61b-62470c092942','event symptoms','01a216a2-766f-72f7-8973-2490baeee0b4','{"id":"0195e5a0-0000-7000-8000-000000000002"}','6c154f742b78d9032395bdac89d0230db8a768fa85fe9d9ac50a7773e6adaefc','1f78c6d9c8001325614d9960fb3928c010535267469775039c378f5f0683314d','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','device:01a216a2-770a-7455-b61b-62470c092942','entry refused','0195e5a0-0000-7000-8000-000000000003','null','1f78c6d9c8001325614d9960fb3928c010535267469775039c378f5f0683314d','e3abf750a2c51a2a699962ac3722c0044dfa8ca67ab58bc3212598ac4b681a4b','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"today","rule":"missed-early-visit"}','e3abf750a2c51a2a699962ac3722c0044dfa8ca67ab58bc3212598ac4b681a4b','2bc5046798801662a43d4ae21064d06706dd5eb693b637cbcbe28cbfb8f82ce4','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"posture-missed"}','2bc5046798801662a43d4ae21064d06706dd5eb693b637cbcbe28cbfb8f82ce4','9b677583a4e9f2b787c3415e610640f1557ff72531002667de277876457f04a3','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"silent-while-posturing"}','9b677583a4e9f2b787c3415e610640f1557ff72531002667de277876457f04a3','fdc8ae31ac354a4b1422a6bd1fe2fd43d6030b9db272d704df4861cfd214163c','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"no-posture-entry"}','fdc8ae31ac354a4b1422a6bd1fe2fd43d6030b9db272d704df4861cfd214163c','478a0606988651189c20148759e9a015fc348ca172d494647b29897bed27c799','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"now","rule":"infection-suspected"}','478a0606988651189c20148759e9a015fc348ca172d494647b29897bed27c799','29d350c6488394cf738f4794cce05b67b207ff5178681242f52f71c3680a1f5f','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"now","rule":"severe-pain"}','29d350c6488394cf738f4794cce05b67b207ff5178681242f52f71c3680a1f5f','944956c5799e0186d00d38a6149ac99da305ef1a8233b4f3649a1f1c473e6fe2','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"today","rule":"curtain"}','944956c5799e0186d00d38a6149ac99da305ef1a8233b4f3649a1f1c473e6fe2','959a202ef72c296b548a0090f18d481dcbda91db1bbaf60bb91cad4798a17c40','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"today","rule":"pain"}','959a202ef72c296b548a0090f18d481dcbda91db1bbaf60bb91cad4798a17c40','82456460ee7e675ff2f04109ef206c79d04a7d53c63c7feaebae3b886fde16b9','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"today","rule":"vision-worse"}','82456460ee7e675ff2f04109ef206c79d04a7d53c63c7feaebae3b886fde16b9','0340b609c8c3bf3014fba014ec5828ec5845701f125a671389461abb42eccb85','');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"vision-said-worse"}','0340b609c8c3bf3014fba014ec5828ec5845701f125a671389461abb42eccb85','1677ac4430eb1824e31cfdf4f9a8a1f585df2719ff7bb8eaeb2cd78a627a3452','[["events", "0195e5a0-0000-7000-8000-000000000001", "c40f5ef331f9d44b67a59aacb895c8e3a6deaaf7e3a52d3fc3f5b3e9e089482b"], ["events", "0195e5a0-0000-7000-8000-000000000002", "4660297682dfc30ebe3c83cf71a3cd44028f1b317ee9f4d6ea806fe3ecb747a5"], ["refused_events", "c6934afa6684edee6b9ccc4cce0ea037c1786fb541d0ab6f4ae1d0860fd59cf9", "9417bae5f3e7a95164ab223312e1d1f9c29d252dffdf3b37277227746ae1d8c8"], ["callbacks", "01a216a2-77d7-71ac-9d85-e214ca0d60da", "6eeb3d88916d48dacb5d80e92ba8c585765c64287aa0aae1c7a2e26cad1f4c84"], ["callback_steps", "01a216a2-77d7-71ac-9d85-e2158c00376e", "279898ddf99ab472e5e6155fd10d2e23dedc2a796336f25ca7370a39fa1220fd"], ["warnings", "01a216a2-77e8-7472-b47b-d79b839f71a7", "b8ef65b35ae03ba6cbe17f16c4dd83553b17cf3e1f497056a9e1721f97a5e498"], ["callbacks", "01a216a2-77e9-7492-a75a-f26f52f67402", "9a38c550d4696f3fea6327d1fd99148590592842e7e7275355b6450469148336"], ["callback_steps", "01a216a2-77e9-7492-a75a-f270c62547ff", "0108ccf22e2fed05a21800d831f1ead23bf529929020b82ec8643e474a47324f"], ["warnings", "01a216a2-77ea-76d8-8696-9a7a2b7fdb2b", "65056b6ba2b66065dc6d0fa710497f9f929247d809687f8f9241efe029fbd379"], ["callbacks", "01a216a2-77ea-76d8-8696-9a7b59f18649", "52a248246abc5bb83e95d964a69ba06586fface4368efcdc738f6d026c62919d"], ["callback_steps", "01a216a2-77ea-76d8-8696-9a7c79059596", "804c5c69df7e2f547870f1034d009d84e4918c2d966cad8da5534863fb1706c4"], ["warnings", "01a216a2-77ea-76d8-8696-9a7df6e2e987", "670cda3ee233b7b951270cbd4372331c4116011d43e7e947363a26e2c593b375"], ["callback_steps", "01a216a2-77ea-76d8-8696-9a7e3fb0a5fc", "1c9c999e2ead6e051e35627b7d8f6e6809529c6698964a58410b200f4aecbe6f"], ["warnings", "01a216a2-77ea-76d8-8696-9a7fcac1120f", "597eda97c2f073ef247d5ee3049858f103c5d62b85e76ed82485345c3bc72fc6"], ["callbacks", "01a216a2-77eb-7493-ab01-56a53e35be3d", "3863196318f06a48816d47c42c5f7978b6f78f1128c6c2fbe60a79aab04ca36e"], ["callback_steps", "01a216a2-77eb-7493-ab01-56a6532f4fdf", "9340f13d06eb4f49458d298f8645a36c84918c71a1243fcc97fdcea88ee9b48a"], ["warnings", "01a216a2-77eb-7493-ab01-56a79fcc1737", "e9e11230983b3fa4200e456d1e02817971ef86b978d9e2999ba2c97c761e53d7"], ["callbacks", "01a216a2-77eb-7493-ab01-56a8cb260380", "72840ad3a493dbc5304de06b0346e3c33f773ce9e8da088a0b50c212241822ca"], ["callback_steps", "01a216a2-77eb-7493-ab01-56a9eb8421a3", "7366ae48f239e207000015e977abba5680445af1aedf1bae920a04b28109941d"], ["warnings", "01a216a2-77eb-7493-ab01-56aac0119e06", "cb863e08ba8f8fa01b720b1e3a4692b9c0dfcf612a2b904f40fba9dc050e249d"], ["callbacks", "01a216a2-77eb-7493-ab01-56ababe24133", "291853179fb53eeb76d3caf3d9e543e00465a1a5dc2efcbc3541cb92a371c1d5"], ["callback_steps", "01a216a2-77ec-732b-a1fd-63784ff301ee", "42d337a1cb167a4deb8536fa0cd010c09a3c9100de0323a4b2d71ed6991ebda4"], ["warnings", "01a216a2-77ec-732b-a1fd-637973b08790", "3c6382090db4b57604e145f9154bee385851d14f19ec8f79ccbf403d54d03211"], ["callback_steps", "01a216a2-77ec-732b-a1fd-637aeeed5393", "dbf71388df9a79007fb4531a5f0d4a38ccbd6bfa14a118134f7d9eb094090a5c"], ["warnings", "01a216a2-780b-7480-a3f1-4ff873dfb0fa", "99116ea9b81f09b8b9bb6f1d9b923af4f053bf363d6e5f717bd740b68ddfc281"], ["callback_steps", "01a216a2-780c-7337-bfea-1a8aec1992ed", "bc4ba73555355a55ebf2a7234fccee6d089c3dd97b8031b5908328cc206e41c3"], ["warnings", "01a216a2-780c-7337-bfea-1a8bf788c4f8", "bc55d5e4d21badf781a59b80006408b6c7b706bce9e5c61d456279e7bb2908aa"], ["callback_steps", "01a216a2-7819-723c-84c8-e3dd6ac4df97", "c8d0b678862b60f500eac18351839f4edf9005831b722df7fece36dfeb5e81af"], ["warnings", "01a216a2-7819-723c-84c8-e3de6fe9c611", "6d12c1770a6f64c794b488514a7868023ed018b458ba7efe42059831c5b7788f"]]');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','event measures','01a216a2-766f-72f7-8973-2490baeee0b4','{"id":"01a216a2-7842-7706-89dc-8eff20c0513e"}','1677ac4430eb1824e31cfdf4f9a8a1f585df2719ff7bb8eaeb2cd78a627a3452','ca287a9f25b0983a7cee153ad6e8b587c817b4291ac5d94781bdedb741080f92','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','event seen','01a216a2-766f-72f7-8973-2490baeee0b4','{"id":"01a216a2-7843-713c-9725-3195770f1c2f"}','ca287a9f25b0983a7cee153ad6e8b587c817b4291ac5d94781bdedb741080f92','477936d886fb17dd76e5d67e6a52ec8dda3a0ab709aff35fcfa606ea92f28a09','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"now","rule":"pressure-severe"}','477936d886fb17dd76e5d67e6a52ec8dda3a0ab709aff35fcfa606ea92f28a09','bd956aff2c4a28afd81caf10f03753c10953e379310ee2a10ee4d431dc4ec488','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"today","rule":"pressure-spike"}','bd956aff2c4a28afd81caf10f03753c10953e379310ee2a10ee4d431dc4ec488','bc72140c2ef7e6be10e9120ffc511e3174d6806189151b30d2aba77378c02c8a','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"pressure-raised"}','bc72140c2ef7e6be10e9120ffc511e3174d6806189151b30d2aba77378c02c8a','c106662af8dc4b42f4cc34389adf2ed3c683b8095a73d0c19e20a09cf668d086','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"pressure-rise"}','c106662af8dc4b42f4cc34389adf2ed3c683b8095a73d0c19e20a09cf668d086','66e07e0cd393193ecf9409f1bd050d95e16f4a8f3c2358539cf35d6553601876','');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-766f-72f7-8973-2490baeee0b4','{"how_soon":"this-week","rule":"pressure-rising"}','66e07e0cd393193ecf9409f1bd050d95e16f4a8f3c2358539cf35d6553601876','fa8a42a5dec7a07a72e55923b09aa85937fb1d07023a142a444a86bf243f8b8b','[["events", "01a216a2-7842-7706-89dc-8eff20c0513e", "fc0743b5655a047b7f421b645488991229477fbd777def26f0d7059a6ae058b0"], ["events", "01a216a2-7843-713c-9725-3195770f1c2f", "1648cadcc4a7e8fbddef627f03416c71c3809664dd32bbd960312e478178a7c1"], ["callback_steps", "01a216a2-7867-702b-8eb9-5c48c147eef9", "ab056eebf4f78394f2a18ac492fe280b1c67ff8d7a0cf5ddd04c7a88b0e6faff"], ["warnings", "01a216a2-7867-702b-8eb9-5c4964f1d2ee", "915d2ec945ef1af5705b808205d1a84e92f03ee36daddfbb4f30376e9a67c2f3"], ["callback_steps", "01a216a2-7867-702b-8eb9-5c4a2fc76888", "3eda0d6e02a44c40a9044d49b6ab41c511ad9b7160531f8c8f84a3871e0e38a3"], ["warnings", "01a216a2-7867-702b-8eb9-5c4bffc321bf", "78cfb57d3c9ebaf3a1faa3f8918cd2735aca09848e8c58aea29a1b6372687daf"], ["callback_steps", "01a216a2-7868-72bf-940c-770f94f0577c", "10e0bb0be3f1f3b68fc378654de0d8bb133db6efc4b56a5b7c8035bcf97cf184"], ["warnings", "01a216a2-7868-72bf-940c-7710122b34da", "6dc90f5b49b8c4eeaa11795c96c239d240d8f18114c6af5c4782143c29076407"], ["callback_steps", "01a216a2-7868-72bf-940c-771118f8f965", "07df0d7195460e777a1d37e1a7ae3a8e53cc88bc0c03c081245c814cbee06f3d"], ["warnings", "01a216a2-7868-72bf-940c-7712b697c32f", "0d72cdf952a767511c5d10a1498256b932e9ebea74ce6d461cedf83f2d4ccf96"], ["callback_steps", "01a216a2-7883-7294-90cc-6066fa26fc5b", "fcb7c63806ddce1af62b609f810a8ddf88ac4b05b8913276a09f409015f8a433"], ["warnings", "01a216a2-7883-7294-90cc-60672668b3aa", "57ab7028c4ba0a2c2d33c2711539b92274b9329096e833ab695ef7989c10b6d8"]]');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','event measures','01a216a2-76b6-704f-bbf2-75e7cb063a29','{"id":"01a216a2-78b1-73e7-95a6-45faf2e0da82"}','fa8a42a5dec7a07a72e55923b09aa85937fb1d07023a142a444a86bf243f8b8b','960592638db8deb30ce5885bf8da5958be9d79c59183c8647b804d3013791973','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-76b6-704f-bbf2-75e7cb063a29','{"how_soon":"today","rule":"missed-early-visit"}','960592638db8deb30ce5885bf8da5958be9d79c59183c8647b804d3013791973','6171b96a65f04cb53d5aa019aa045ffa2d9a206fce98ffb0df8c3055b22ebb00','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-76b6-704f-bbf2-75e7cb063a29','{"how_soon":"this-week","rule":"no-posture-entry"}','6171b96a65f04cb53d5aa019aa045ffa2d9a206fce98ffb0df8c3055b22ebb00','07eef483b7e0657bdd078254313469e19456bfd1c09b25c4c76d5d22025b1faf','');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a216a2-76b6-704f-bbf2-75e7cb063a29','{"how_soon":"this-week","rule":"silent-while-posturing"}','07eef483b7e0657bdd078254313469e19456bfd1c09b25c4c76d5d22025b1faf','7cbff8c3b51bc11aa817b97509c293c59260fa52d56dec69cb80867bcea78575','[["events", "01a216a2-78b1-73e7-95a6-45faf2e0da82", "8076becc0e69e5ca314c216f1c773902a2e93cb46c902686803c85602044610d"], ["callbacks", "01a216a2-78cb-755c-b51a-fc199aee3b31", "34cdc4f3a46603d139c0f8d57c003016c6851eab494871aec64d14f6e924d8ba"], ["callback_steps", "01a216a2-78cb-755c-b51a-fc1a82ddbb66", "cde2f756aefc72ea3b8d846a2ade4c195b0f08895690d4cf1f39e7571076b450"], ["warnings", "01a216a2-78cb-755c-b51a-fc1b3e87ae19", "29819fb2fd87f6d7bc391c4c7f590f6ddc07d3771341e1a6f73986eff4ae1f98"], ["callbacks", "01a216a2-78cb-755c-b51a-fc1c14880666", "7045c046a306a895357d3110808e2936dacb7bbdfcf14f54249c834ed226bd07"], ["callback_steps", "01a216a2-78cb-755c-b51a-fc1d202aed21", "f2e92caf68da55a8c72a7f9166560d3c665138087e9ab7bb1940a6c01ecdc3f8"], ["warnings", "01a216a2-78cb-755c-b51a-fc1e71be6013", "4b23b466d21d6bef141aa31d04a9f8bd8b0b9045eb79ec5dad9e87ff8c1d9837"], ["callback_steps", "01a216a2-78cc-72bb-8381-91b3f86a7ea3", "7aa9c67a99258189c279cd0f2ea488851b655fc9545dac679f631fecf8892434"], ["warnings", "01a216a2-78cc-72bb-8381-91b4f2bd354d", "5e65ff797ecddb6ee0960acc3e5b83500f505c6b35d24e4c7a6d98963f04757b"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','callback claimed','01a216a2-77eb-7493-ab01-56a53e35be3d','null','7cbff8c3b51bc11aa817b97509c293c59260fa52d56dec69cb80867bcea78575','55cce604154ceb923a8d76e7e1fa7eab998e744a4802b278565f95695dcc5497','[["callbacks", "01a216a2-77eb-7493-ab01-56a53e35be3d", "4d5cddc4fca82dd37883f6b15e80960dd33bcb7a6ab86a4d36f2fe517ee099a2"], ["callback_steps", "01a216a2-7916-766d-b33f-b609153f9ab2", "1e4374776ef573e1e764a39294a4809ddb95f1ffe50af580e222cc7e887d95a1"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','callback attempt','01a216a2-77eb-7493-ab01-56a53e35be3d','{"reached":true}','55cce604154ceb923a8d76e7e1fa7eab998e744a4802b278565f95695dcc5497','1dcff4530f3bd5e22aa18d2b5739b03dd05fc0c12d43d07afb4a8fdcb01592d4','[["events", "01a216a2-7932-73ac-a304-d69df7214317", "6d6f26294c08b28940faef768b4c9ca95f8ebdfdb213b6ec45ed00571f8b4af2"], ["callback_steps", "01a216a2-7932-73ac-a304-d69e950b3b71", "e9e5ace85467bc4fc78ba29784bb6447b7f85b521a58f38edd0e08d2d5a76c71"], ["callbacks", "01a216a2-77eb-7493-ab01-56a53e35be3d", "4d5cddc4fca82dd37883f6b15e80960dd33bcb7a6ab86a4d36f2fe517ee099a2"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','callback settled','01a216a2-77eb-7493-ab01-56a53e35be3d','{"outcome":"advice"}','1dcff4530f3bd5e22aa18d2b5739b03dd05fc0c12d43d07afb4a8fdcb01592d4','67b77dc2ffe13080927fd4feaf392b5486358d6ca1f80e7db316ff16c5bb9291','[["callbacks", "01a216a2-77eb-7493-ab01-56a53e35be3d", "09b37e11afbcb2d4166107d696246643e778278bb8d5ebb7dfae4a9c13c3525d"], ["callback_steps", "01a216a2-796b-70fd-bf27-9ece7599182c", "884c8c917c1814eddc2c89734615024d407da24d740b16319b3e607db2176f6c"]]');
INSERT INTO "audit" VALUES(36,'2027-03-05T10:00:00.000000Z','surgeon:01a216a2-765d-710c-9bd7-dd4797507e6c','protocol signed','reviews','{"fingerprint":"75ad0f11a27c8e5c"}','67b77dc2ffe13080927fd4feaf392b5486358d6ca1f80e7db316ff16c5bb9291','a6ccd89822d74938b242d86e17a97f37e005a97d9af6ae700328886f130b1b5b','[["signatures", "01a216a2-798e-76e8-993e-28e7fd924f95", "f96f01fd19c76ec28c98db6a06276e3ee09fbb5f54cf35bb408b1198a765789f"]]');
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
INSERT INTO "callback_steps" VALUES('01a216a2-77d7-71ac-9d85-e2158c00376e','01a216a2-77d7-71ac-9d85-e214ca0d60da','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77e9-7492-a75a-f270c62547ff','01a216a2-77e9-7492-a75a-f26f52f67402','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77ea-76d8-8696-9a7c79059596','01a216a2-77ea-76d8-8696-9a7b59f18649','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77ea-76d8-8696-9a7e3fb0a5fc','01a216a2-77ea-76d8-8696-9a7b59f18649','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77eb-7493-ab01-56a6532f4fdf','01a216a2-77eb-7493-ab01-56a53e35be3d','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77eb-7493-ab01-56a9eb8421a3','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77ec-732b-a1fd-63784ff301ee','01a216a2-77eb-7493-ab01-56ababe24133','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a216a2-77ec-732b-a1fd-637aeeed5393','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a216a2-780c-7337-bfea-1a8aec1992ed','01a216a2-77eb-7493-ab01-56ababe24133','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7819-723c-84c8-e3dd6ac4df97','01a216a2-77eb-7493-ab01-56ababe24133','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7867-702b-8eb9-5c48c147eef9','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7867-702b-8eb9-5c4a2fc76888','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7868-72bf-940c-770f94f0577c','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7868-72bf-940c-771118f8f965','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7883-7294-90cc-6066fa26fc5b','01a216a2-77eb-7493-ab01-56a8cb260380','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a216a2-78cb-755c-b51a-fc1a82ddbb66','01a216a2-78cb-755c-b51a-fc199aee3b31','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a216a2-78cb-755c-b51a-fc1d202aed21','01a216a2-78cb-755c-b51a-fc1c14880666','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a216a2-78cc-72bb-8381-91b3f86a7ea3','01a216a2-78cb-755c-b51a-fc1c14880666','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a216a2-7916-766d-b33f-b609153f9ab2','01a216a2-77eb-7493-ab01-56a53e35be3d','2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a216a2-7932-73ac-a304-d69e950b3b71','01a216a2-77eb-7493-ab01-56a53e35be3d','2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a216a2-796b-70fd-bf27-9ece7599182c','01a216a2-77eb-7493-ab01-56a53e35be3d','2027-03-05T10:00:00.000000Z','nurse:01a216a2-7642-74d8-8955-3255f423b652','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a216a2-77d7-71ac-9d85-e214ca0d60da','01a216a2-766f-72f7-8973-2490baeee0b4','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-77e9-7492-a75a-f26f52f67402','01a216a2-766f-72f7-8973-2490baeee0b4','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-77ea-76d8-8696-9a7b59f18649','01a216a2-766f-72f7-8973-2490baeee0b4','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-77eb-7493-ab01-56a53e35be3d','01a216a2-766f-72f7-8973-2490baeee0b4','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a216a2-7642-74d8-8955-3255f423b652','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a216a2-7642-74d8-8955-3255f423b652',NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-77eb-7493-ab01-56a8cb260380','01a216a2-766f-72f7-8973-2490baeee0b4','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-77eb-7493-ab01-56ababe24133','01a216a2-766f-72f7-8973-2490baeee0b4','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-78cb-755c-b51a-fc199aee3b31','01a216a2-76b6-704f-bbf2-75e7cb063a29','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a216a2-78cb-755c-b51a-fc1c14880666','01a216a2-76b6-704f-bbf2-75e7cb063a29','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "changed_patients" VALUES('01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "changed_patients" VALUES('01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
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
INSERT INTO "consents" VALUES('01a216a2-76f5-71dc-9d64-a5941946d0e6','01a216a2-766f-72f7-8973-248f4be1323c','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a216a2-7642-74d8-8955-3255f423b652');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "devices" VALUES('01a216a2-770a-7455-b61b-62470c092942','01a216a2-766f-72f7-8973-248f4be1323c','dd1947dc53523979b0aa724afdea1e2959e0c096785d56454bb88131f830eb43','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL,'');
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "enrolments" VALUES('01a216a2-7696-732d-b4b3-e4b4e44f5b4a','01a216a2-766f-72f7-8973-248f4be1323c','f6f99892701fe1d1be1901e9be4e18a67ba406a4742ab9ece95ef11371363d9f','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0,'');
INSERT INTO "enrolments" VALUES('01a216a2-76d1-73d4-a840-746efa0de04c','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6','4e83ceb1128320d46a8344aa76169dbc00dc0d205d609ee865c5c93f51761bbb','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0,'');
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a216a2-766f-72f7-8973-2490baeee0b4','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a216a2-770a-7455-b61b-62470c092942','01a216a2-770a-7455-b61b-62470c092942',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a216a2-766f-72f7-8973-2490baeee0b4','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a216a2-770a-7455-b61b-62470c092942','01a216a2-770a-7455-b61b-62470c092942',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a216a2-7842-7706-89dc-8eff20c0513e','01a216a2-766f-72f7-8973-2490baeee0b4','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a216a2-7642-74d8-8955-3255f423b652',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a216a2-7843-713c-9725-3195770f1c2f','01a216a2-766f-72f7-8973-2490baeee0b4','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a216a2-7696-732d-b4b3-e4b1e9e9ab0d"}','nurse:01a216a2-7642-74d8-8955-3255f423b652',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a216a2-78b1-73e7-95a6-45faf2e0da82','01a216a2-76b6-704f-bbf2-75e7cb063a29','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a216a2-7642-74d8-8955-3255f423b652',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a216a2-7932-73ac-a304-d69df7214317','01a216a2-766f-72f7-8973-2490baeee0b4','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a216a2-7642-74d8-8955-3255f423b652',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
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
        , drops_until TEXT, drops_at TEXT, posture_seen TEXT) STRICT;
CREATE TABLE "eyes" (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, created_at TEXT NOT NULL, ended_at TEXT
        , side TEXT CHECK (side IN ('right', 'left')), followed_since TEXT, end_reason TEXT, joined_into TEXT REFERENCES eyes) STRICT;
INSERT INTO "eyes" VALUES('01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-766f-72f7-8973-248f4be1323c','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a216a2-766f-72f7-8973-249143194e35','01a216a2-766f-72f7-8973-248f4be1323c','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a216a2-76b6-704f-bbf2-75e7cb063a29','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a216a2-76b6-704f-bbf2-75e8828abcbf','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a216a2-7696-732d-b4b3-e4b31d4d277a','01a216a2-766f-72f7-8973-2490baeee0b4','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a216a2-7642-74d8-8955-3255f423b652');
INSERT INTO "follow_ups" VALUES('01a216a2-76d0-75fc-b932-9d13ff853846','01a216a2-76b6-704f-bbf2-75e7cb063a29','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a216a2-7642-74d8-8955-3255f423b652');
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
INSERT INTO "operation_records" VALUES('01a216a2-7695-7157-ba82-6b48b59f6e3b','01a216a2-7682-7383-9e06-586a6972bfc5','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a216a2-76b7-72b1-991e-f006d9b594c2','01a216a2-76b7-72b1-991e-f005042b5bb9','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operation_results (
            operation_id TEXT PRIMARY KEY, eye_id TEXT NOT NULL, patient_id TEXT NOT NULL, number INTEGER NOT NULL,
            surgeon TEXT NOT NULL, agent TEXT NOT NULL, indication TEXT NOT NULL, day TEXT NOT NULL,
            counted_from TEXT, last_look TEXT, detached_at TEXT, days_followed REAL, detached INTEGER,
            under_liquid INTEGER NOT NULL, highest_early_mmhg REAL, before_logmar REAL, sight TEXT
        ) STRICT, WITHOUT ROWID;
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a216a2-7682-7383-9e06-586a6972bfc5','01a216a2-766f-72f7-8973-2490baeee0b4','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a216a2-76b7-72b1-991e-f005042b5bb9','01a216a2-76b6-704f-bbf2-75e7cb063a29','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE passkeys (
            id TEXT PRIMARY KEY, staff_id TEXT NOT NULL REFERENCES staff, credential_id TEXT NOT NULL UNIQUE,
            public_key TEXT NOT NULL, sign_count INTEGER NOT NULL CHECK (sign_count >= 0), name TEXT NOT NULL,
            created_at TEXT NOT NULL, used_at TEXT, removed_at TEXT
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('9','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('s1','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('rson','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('76','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('009876','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('on','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('00','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('09876','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('son','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('876','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('pia','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('person','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('s','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('1','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('9876','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('ia','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('erson','01a216a2-766f-72f7-8973-248f4be1323c');
INSERT INTO "patient_terms" VALUES('9','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('9876','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('other','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('her','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('76','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('009876','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('olaf','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('af','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('09876','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('00','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('s2','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('876','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('laf','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('2','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('ther','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('s','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
INSERT INTO "patient_terms" VALUES('er','01a216a2-76b6-704f-bbf2-75e6fcc7fbf6');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a216a2-766f-72f7-8973-248f4be1323c','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a216a2-76b6-704f-bbf2-75e6fcc7fbf6','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-770a-7455-b61b-62470c092942','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a216a2-766f-72f7-8973-2490baeee0b4", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a216a2-798e-76e8-993e-28e7fd924f95','reviews','75ad0f11a27c8e5c','01a216a2-765d-710c-9bd7-dd4797507e6c','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER, passkey_asked INTEGER, directory_subject TEXT) STRICT;
INSERT INTO "staff" VALUES('01a216a2-7642-74d8-8955-3255f423b652','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$kqPDxyhaXn9nAiFs6G2xkg$yLGXPQl0+Ri0OvrjqfrUxX0BgxOQ6R10fh38Yrj/aUU','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL,NULL,NULL);
INSERT INTO "staff" VALUES('01a216a2-765d-710c-9bd7-dd4797507e6c','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$8fhEWT8jwr+S53DCdVcebQ$7ZCern6XvbGql71iXSdY/S4JNcRL2pyoUwlw5avZVO0','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL,NULL,NULL);
CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT, theatre_on TEXT, theatre_list TEXT NOT NULL DEFAULT '') STRICT;
CREATE TABLE tries (what TEXT NOT NULL, key TEXT NOT NULL, at TEXT NOT NULL) STRICT;
CREATE TABLE used_once (hash TEXT PRIMARY KEY, at TEXT NOT NULL) STRICT, WITHOUT ROWID;
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
INSERT INTO "visits" VALUES('01a216a2-7696-732d-b4b3-e4b1e9e9ab0d','01a216a2-766f-72f7-8973-2490baeee0b4','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z',NULL,0,'01a216a2-7696-732d-b4b3-e4b1e9e9ab0d',NULL,'');
INSERT INTO "visits" VALUES('01a216a2-7696-732d-b4b3-e4b2b79bbb99','01a216a2-766f-72f7-8973-2490baeee0b4','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z',NULL,0,'01a216a2-7696-732d-b4b3-e4b2b79bbb99',NULL,'');
INSERT INTO "visits" VALUES('01a216a2-76b8-7550-ad2d-802cbbb89e67','01a216a2-76b6-704f-bbf2-75e7cb063a29','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z',NULL,0,'01a216a2-76b8-7550-ad2d-802cbbb89e67',NULL,'');
INSERT INTO "visits" VALUES('01a216a2-76b8-7550-ad2d-802dc4758ad4','01a216a2-76b6-704f-bbf2-75e7cb063a29','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a216a2-7642-74d8-8955-3255f423b652','2027-03-02T19:00:00.000000Z',NULL,0,'01a216a2-76b8-7550-ad2d-802dc4758ad4',NULL,'');
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
INSERT INTO "warnings" VALUES('01a216a2-77e8-7472-b47b-d79b839f71a7','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77d7-71ac-9d85-e214ca0d60da','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-77ea-76d8-8696-9a7a2b7fdb2b','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77e9-7492-a75a-f26f52f67402','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12.0}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-77ea-76d8-8696-9a7df6e2e987','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77ea-76d8-8696-9a7b59f18649','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-77ea-76d8-8696-9a7fcac1120f','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77ea-76d8-8696-9a7b59f18649','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-77eb-7493-ab01-56a79fcc1737','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a53e35be3d','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-77eb-7493-ab01-56aac0119e06','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-77ec-732b-a1fd-637973b08790','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56ababe24133','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-780b-7480-a3f1-4ff873dfb0fa','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-780c-7337-bfea-1a8bf788c4f8','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56ababe24133','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-7819-723c-84c8-e3de6fe9c611','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56ababe24133','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-7867-702b-8eb9-5c4964f1d2ee','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-7867-702b-8eb9-5c4bffc321bf','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-7868-72bf-940c-7710122b34da','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-7868-72bf-940c-7712b697c32f','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15.0,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-7883-7294-90cc-60672668b3aa','01a216a2-766f-72f7-8973-2490baeee0b4','01a216a2-77eb-7493-ab01-56a8cb260380','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15.0}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-78cb-755c-b51a-fc1b3e87ae19','01a216a2-76b6-704f-bbf2-75e7cb063a29','01a216a2-78cb-755c-b51a-fc199aee3b31','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-78cb-755c-b51a-fc1e71be6013','01a216a2-76b6-704f-bbf2-75e7cb063a29','01a216a2-78cb-755c-b51a-fc1c14880666','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a216a2-78cc-72bb-8381-91b4f2bd354d','01a216a2-76b6-704f-bbf2-75e7cb063a29','01a216a2-78cb-755c-b51a-fc1c14880666','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','daac631c88573c06','2027-03-05T10:00:00.000000Z');
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
CREATE INDEX tasks_for_theatre ON tasks (theatre_on, theatre_list) WHERE kind = 'theatre' AND NOT given_up;
CREATE INDEX passkeys_of_staff ON passkeys (staff_id);
CREATE UNIQUE INDEX staff_by_subject ON staff (directory_subject)
            WHERE directory_subject IS NOT NULL AND left_at IS NULL;
CREATE INDEX eyes_with_drops ON eye_states (drops_at) WHERE drops_at IS NOT NULL;
CREATE TRIGGER message_choices_changed_insert AFTER INSERT ON message_choices BEGIN 
        INSERT INTO changed_patients SELECT substr(NEW.person, 9) WHERE NEW.person GLOB 'patient:*'
        AND NOT EXISTS (SELECT 1 FROM changed_patients WHERE patient_id = substr(NEW.person, 9));
     END;
CREATE TRIGGER message_choices_changed_update AFTER UPDATE ON message_choices BEGIN 
        INSERT INTO changed_patients SELECT substr(OLD.person, 9) WHERE OLD.person GLOB 'patient:*'
        AND NOT EXISTS (SELECT 1 FROM changed_patients WHERE patient_id = substr(OLD.person, 9));
     
        INSERT INTO changed_patients SELECT substr(NEW.person, 9) WHERE NEW.person GLOB 'patient:*'
        AND NOT EXISTS (SELECT 1 FROM changed_patients WHERE patient_id = substr(NEW.person, 9));
     END;
CREATE TRIGGER message_choices_changed_delete AFTER DELETE ON message_choices BEGIN 
        INSERT INTO changed_patients SELECT substr(OLD.person, 9) WHERE OLD.person GLOB 'patient:*'
        AND NOT EXISTS (SELECT 1 FROM changed_patients WHERE patient_id = substr(OLD.person, 9));
     END;
COMMIT;
