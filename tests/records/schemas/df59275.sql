BEGIN TRANSACTION;
CREATE TABLE "_sqlite_migrations" (
   "id" INTEGER PRIMARY KEY,
   "migration_set" TEXT,
   "name" TEXT,
   "applied_at" TEXT
);
INSERT INTO "_sqlite_migrations" VALUES(1,'followup','m001_people','2026-11-26 06:06:33.040074+00:00');
INSERT INTO "_sqlite_migrations" VALUES(2,'followup','m002_eyes','2026-11-26 06:06:33.057464+00:00');
INSERT INTO "_sqlite_migrations" VALUES(3,'followup','m003_worries','2026-11-26 06:06:33.063476+00:00');
INSERT INTO "_sqlite_migrations" VALUES(4,'followup','m004_audit','2026-11-26 06:06:33.080138+00:00');
INSERT INTO "_sqlite_migrations" VALUES(5,'followup','m005_messages','2026-11-26 06:06:33.086426+00:00');
INSERT INTO "_sqlite_migrations" VALUES(6,'followup','m006_repair','2026-11-26 06:06:33.130431+00:00');
INSERT INTO "_sqlite_migrations" VALUES(7,'followup','m007_tasks','2026-11-26 06:06:33.150732+00:00');
INSERT INTO "_sqlite_migrations" VALUES(8,'followup','m008_visit_identities','2026-11-26 06:06:33.165867+00:00');
INSERT INTO "_sqlite_migrations" VALUES(9,'followup','m009_watch','2026-11-26 06:06:33.177968+00:00');
INSERT INTO "_sqlite_migrations" VALUES(10,'followup','m011_bounds','2026-11-26 06:06:33.180844+00:00');
INSERT INTO "_sqlite_migrations" VALUES(11,'followup','m020_two_eyes','2026-11-26 06:06:33.336740+00:00');
INSERT INTO "_sqlite_migrations" VALUES(12,'followup','m021_grounds_of_warnings','2026-11-26 06:06:33.349276+00:00');
INSERT INTO "_sqlite_migrations" VALUES(13,'followup','m025_joined_by_index','2026-11-26 06:06:33.352011+00:00');
INSERT INTO "_sqlite_migrations" VALUES(14,'followup','m026_one_call','2026-11-26 06:06:33.360242+00:00');
INSERT INTO "_sqlite_migrations" VALUES(15,'followup','m027_book_of_visits','2026-11-26 06:06:33.373692+00:00');
INSERT INTO "_sqlite_migrations" VALUES(16,'followup','m028_current_state','2026-11-26 06:06:33.405244+00:00');
INSERT INTO "_sqlite_migrations" VALUES(17,'followup','m029_sessions','2026-11-26 06:06:33.508830+00:00');
INSERT INTO "_sqlite_migrations" VALUES(18,'followup','m030_sealed_facts','2026-11-26 06:06:33.512061+00:00');
INSERT INTO "_sqlite_migrations" VALUES(19,'followup','m031_carers_and_drops','2026-11-26 06:06:33.515907+00:00');
INSERT INTO "_sqlite_migrations" VALUES(20,'followup','m032_rights','2026-11-26 06:06:33.531209+00:00');
INSERT INTO "_sqlite_migrations" VALUES(21,'followup','m030_passkeys','2026-11-26 06:06:33.535158+00:00');
CREATE TABLE audit (
            number INTEGER PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, action TEXT NOT NULL, subject TEXT NOT NULL,
            detail TEXT NOT NULL, previous TEXT NOT NULL, hash TEXT NOT NULL
        , facts TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "audit" VALUES(1,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21676-7c44-77fc-9d12-b827e14b0bb8','{"role":"nurse"}','0000000000000000000000000000000000000000000000000000000000000000','0fda867fc07de89ae24e708bc5da48c3d8d6390b58490b207b6f6280c9d6b500','[["staff", "01a21676-7c44-77fc-9d12-b827e14b0bb8", "0ed01000dc72f1f0dc914a2db37a3ceaa0ebb247a5f2e2bfb27eaeeb82123bc8"]]');
INSERT INTO "audit" VALUES(2,'2027-03-02T14:00:00.000000Z','command line','staff added','01a21676-7c4b-7726-a20e-2f9f4210d0f0','{"role":"surgeon"}','0fda867fc07de89ae24e708bc5da48c3d8d6390b58490b207b6f6280c9d6b500','2489eb19c7ebca43e9d63865fd32493331d736ca4df7e1159a0200350c06620d','[["staff", "01a21676-7c4b-7726-a20e-2f9f4210d0f0", "45e38b80848446b806bae268acfe37229744e9aeb7cb5ba49d4a6676bf0bdd18"]]');
INSERT INTO "audit" VALUES(3,'2027-03-02T19:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','enrolment code','01a21676-7c4d-7193-baa7-07c7c66471e0','null','2489eb19c7ebca43e9d63865fd32493331d736ca4df7e1159a0200350c06620d','954f52c1ba64dfb22010def9b8e9c8134a0091d948b8715be06b690478572bb4','');
INSERT INTO "audit" VALUES(4,'2027-03-02T19:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','discharge','01a21676-7c4d-7193-baa7-07c81222faed','{"agent":"c2f6","eye":"right"}','954f52c1ba64dfb22010def9b8e9c8134a0091d948b8715be06b690478572bb4','54d9f271c61d84282ad0aedb27284b9327f985ab4be28980672bbbd3e8a9fef3','[["patients", "01a21676-7c4d-7193-baa7-07c7c66471e0", "f54664095afac65d2ee6b293d964147e07935d148b55e178900a3553f2aea0db"], ["eyes", "01a21676-7c4d-7193-baa7-07c81222faed", "705f0845673e27ae69452b7190886f580f25a39dbb600f8e12589bca5c0825b4"], ["eyes", "01a21676-7c4d-7193-baa7-07c953daf9f5", "44725bcb77066c1dbf1e70bdbd96d6919d832acf0f95cf25300d88ee975f92e0"], ["operations", "01a21676-7c4f-77ce-b358-f71a134000c4", "b815907bccbfafa59730ecda61875b8bafd30c1cfe3fd273cb5a153e9b5dda90"], ["operation_records", "01a21676-7c4f-77ce-b358-f71b7c7ca7f4", "4073c908466b601119b588c79baa4d0f868e935d09a9a4cbba88768aed6e7b7e"], ["visits", "01a21676-7c4f-77ce-b358-f71c139e5d43", "957aa1dac57114a8a2fb6acd588b9b02d42678c7819e387913eb9bd03cfa4caf"], ["visits", "01a21676-7c4f-77ce-b358-f71ddf850203", "5ecac34e9def0851f3098249327a25f3e7ca860682b889cb006ae6c9f66843d8"], ["follow_ups", "01a21676-7c4f-77ce-b358-f71eb7e89b9a", "3bc4af924b446caca57ee68a5d451e3efd408f23d2c5377e4ead4f407b05776c"]]');
INSERT INTO "audit" VALUES(5,'2027-03-02T19:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','enrolment code','01a21676-7d8d-729e-a3fd-4b35d9885fb1','null','54d9f271c61d84282ad0aedb27284b9327f985ab4be28980672bbbd3e8a9fef3','ef989ec84093478eabbf957c8a1875cb8af7866a568d7a313616176d273bee22','');
INSERT INTO "audit" VALUES(6,'2027-03-02T19:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','discharge','01a21676-7d8d-729e-a3fd-4b36f524a063','{"agent":"silicone-oil","eye":"right"}','ef989ec84093478eabbf957c8a1875cb8af7866a568d7a313616176d273bee22','d7fca1dc64dd33c623a7e37c84f1938a7d70b3f589d2151305d012e328d1925d','[["patients", "01a21676-7d8d-729e-a3fd-4b35d9885fb1", "e5a0026f59d8dbd6f73a801ab05bf8dfc307447876d57ea27a990992af5d00d1"], ["eyes", "01a21676-7d8d-729e-a3fd-4b36f524a063", "58db2ab5c376163ebb7ded5fcff0d73749d8cddd97eab47dd01272786a0b046b"], ["eyes", "01a21676-7d8d-729e-a3fd-4b37497fc14a", "d2db9dfcfb3863859df4ffe286f0ddfbd0896df1ff2081e6d4ff8193d5336287"], ["operations", "01a21676-7d8e-75a8-8429-eca796e9fec8", "382d7f44a7d298a95094733d1bb79c16b7ae1dba29b10f619985eda4249b3e82"], ["operation_records", "01a21676-7d8e-75a8-8429-eca8ab35acb9", "574d2ec3341d18a15d027847c03d202bdf098ecce67c17b70e7da8ef9c4e3420"], ["visits", "01a21676-7d8e-75a8-8429-eca9efa1c878", "293b478e9ee53c680b7bf5781cf93e6f1b263c4a646a11f832517208a5ac99bf"], ["visits", "01a21676-7d8e-75a8-8429-ecaaf63093ae", "95a91420dcf7923f69b6b17063da3937bf29cd6d8aa6a52becaddd14b03c7645"], ["follow_ups", "01a21676-7d8e-75a8-8429-ecab29d0d784", "fdf0178ec4d697514c6ba9dc614bdb37f64dadd456daac334dc0f285995def97"]]');
INSERT INTO "audit" VALUES(7,'2027-03-02T14:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','consent given','01a21676-7c4d-7193-baa7-07c7c66471e0','{"said_by":"patient","what":"phone"}','d7fca1dc64dd33c623a7e37c84f1938a7d70b3f589d2151305d012e328d1925d','ec661cd88b45648177a94aa8a8a5b6fc43babbc970ceea3eed7e02d9a302acd2','[["consents", "01a21676-7d98-7313-a6cd-809a64910f60", "fa65ea89045ab71414ba7248168a81e49b9bf9701274deb9170c3dfab92b7dc2"]]');
INSERT INTO "audit" VALUES(8,'2027-03-02T20:00:00.000000Z','patient:01a21676-7d9d-7603-a1ba-e2ff9f259473','device enrolled','01a21676-7c4d-7193-baa7-07c7c66471e0','null','ec661cd88b45648177a94aa8a8a5b6fc43babbc970ceea3eed7e02d9a302acd2','d91b8cf0415289cad5a7e61aa16d4e935f216d2f30b2976f06a9828431509acc','[["devices", "01a21676-7d9d-7603-a1ba-e2ff9f259473", "e927fda4c7e5865863b63c8e69d53bbe435078df36c97fde86d26158480baba5"]]');
INSERT INTO "audit" VALUES(9,'2027-03-05T10:00:00.000000Z','patient:01a21676-7d9d-7603-a1ba-e2ff9f259473','event posture','01a21676-7c4d-7193-baa7-07c81222faed','{"id":"0195e5a0-0000-7000-8000-000000000001"}','d91b8cf0415289cad5a7e61aa16d4e935f216d2f30b2976f06a9828431509acc','5bbf91ece1029e31f9bd757ec4f99347255218edea7f2f8e25bc4acfd864f840','');
INSERT INTO "audit" VALUES(10,'2027-03-05T10:00:00.000000Z','patient:01a21676-7d9d-7603-a1ba-e2ff9f259473','event symptoms','01a21676-7c4d-7193-baa7-07c81222faed','{"id":"0195e5a0-0000-7000-8000-000000000002"}','5bbf91ece1029e31f9bd757ec4f99347255218edea7f2f8e25bc4acfd864f840','cef8e5c7743720634f0bbec70e324c6379b169f47e00f371aa248f5a8400c7a8','');
INSERT INTO "audit" VALUES(11,'2027-03-05T10:00:00.000000Z','device:01a21676-7d9d-7603-a1ba-e2ff9f259473','entry refused','0195e5a0-0000-7000-8000-000000000003','null','cef8e5c7743720634f0bbec70e324c6379b169f47e00f371aa248f5a8400c7a8','dc4a3c3747f42fa8eca825a21c5cb4aaa0ee15bff6539f3a4904a320d437ab7b','');
INSERT INTO "audit" VALUES(12,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"today","rule":"missed-early-visit"}','dc4a3c3747f42fa8eca825a21c5cb4aaa0ee15bff6539f3a4904a320d437ab7b','13c358fbb8c53ce0e122b2426105a0d18af70a0c641a9603d24073f1fa2b5a71','');
INSERT INTO "audit" VALUES(13,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"posture-missed"}','13c358fbb8c53ce0e122b2426105a0d18af70a0c641a9603d24073f1fa2b5a71','5043bab287b618bdcd3000880a6f75ce624cbf6f5aaba85f70021e707a6be2c0','');
INSERT INTO "audit" VALUES(14,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"silent-while-posturing"}','5043bab287b618bdcd3000880a6f75ce624cbf6f5aaba85f70021e707a6be2c0','c5a8bd2a2b329785eee8ec8faceb6a3a545739df31adedc09839c8aaf8e91228','');
INSERT INTO "audit" VALUES(15,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"no-posture-entry"}','c5a8bd2a2b329785eee8ec8faceb6a3a545739df31adedc09839c8aaf8e91228','13df33177d880b2cbfbc4f00c63591c01e5b02d182d3a1f0863cd4f8f870f9b5','');
INSERT INTO "audit" VALUES(16,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"now","rule":"infection-suspected"}','13df33177d880b2cbfbc4f00c63591c01e5b02d182d3a1f0863cd4f8f870f9b5','cf3a39a099871ba03e146e3ff670056df0141e090cde4161a7d8c967d6bb1b17','');
INSERT INTO "audit" VALUES(17,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"now","rule":"severe-pain"}','cf3a39a099871ba03e146e3ff670056df0141e090cde4161a7d8c967d6bb1b17','613ac53a81f1cec4979c1366f7df99d87ee726d57d30d6c9776c953e1eac715f','');
INSERT INTO "audit" VALUES(18,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"today","rule":"curtain"}','613ac53a81f1cec4979c1366f7df99d87ee726d57d30d6c9776c953e1eac715f','25a371be3827019adfa698b6da40a3db320ca3cceb45e3b368f984d83165e03b','');
INSERT INTO "audit" VALUES(19,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"today","rule":"pain"}','25a371be3827019adfa698b6da40a3db320ca3cceb45e3b368f984d83165e03b','f47deec34938a79fd98a38be346fa6c4c6edea91beede21be773697654644175','');
INSERT INTO "audit" VALUES(20,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"today","rule":"vision-worse"}','f47deec34938a79fd98a38be346fa6c4c6edea91beede21be773697654644175','ae132375b5817af5d2160d36974d496156a902120594991ed7b69ad402b24694','');
INSERT INTO "audit" VALUES(21,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"vision-said-worse"}','ae132375b5817af5d2160d36974d496156a902120594991ed7b69ad402b24694','1cb8c66b66bc19e83722cc03f43b170c2bdb717836fdce94057cbd026bada4b4','[["events", "0195e5a0-0000-7000-8000-000000000001", "73e50b8b3b08dfe9b4df5312ef3651dc3fd8ed8f71859770fbe22e2bcb29167f"], ["events", "0195e5a0-0000-7000-8000-000000000002", "a6fdfda1f45111a62bb000d87cb350c17d4da4a2b80b4c7058b722c9a623ac30"], ["refused_events", "505180a0274d0f40d6db5de7d37923a9f09f7af7cd147aa20039fe505ff5af66", "30b5b4f04eca402658546863a31fd8e80e31f9312c9ba3834ecb80dcd517428d"], ["callbacks", "01a21676-7e02-769a-99eb-c8af7ff473c9", "cb1822849019ec61b73563167451f43bf1836da95e4cc79215ce78c9906b35e6"], ["callback_steps", "01a21676-7e03-77f2-bd80-a7f60e37af1d", "4dcd40a225500214d1f2bbb7984ac82e18f87375e8b2957a1bb405d3a87ba158"], ["warnings", "01a21676-7e03-77f2-bd80-a7f7945e51d1", "166c4989cfaa72b9169ce98f0f360274cae409846ceffca76af61a71de4a4f9f"], ["callbacks", "01a21676-7e03-77f2-bd80-a7f8d93f9b87", "059785e81124e6be29e1c4fc22604dd913eff0fb25e59df95ad3df245ee33aea"], ["callback_steps", "01a21676-7e03-77f2-bd80-a7f9e4e67f50", "4c28efb2a3345a9a50471aa6c9aa28a224f442fa794aa77740dcc6b99f1e91f5"], ["warnings", "01a21676-7e03-77f2-bd80-a7fa6167238e", "111e1e3be2ae5c5e6d8d9e082d4724b3b7321d75a35790578db43f624a2d3089"], ["callbacks", "01a21676-7e10-737a-b1d1-7383fc6c453f", "600eeed86e3cee5d6290e7f606fa9784e2490b4f45499552be7952c9a387f0dc"], ["callback_steps", "01a21676-7e10-737a-b1d1-7384289b2732", "2a64afeef543f83661212bbc98f9abb3af07bd1f8c2e9f243e2b93ef53bc28b9"], ["warnings", "01a21676-7e10-737a-b1d1-7385af509761", "260d5308623545bd573b798189a8f6c7527487b417a8b785399f8f12c7b4c377"], ["callback_steps", "01a21676-7e11-7729-b4d5-950f867bae2d", "37392d7f6d7fbca9589df8747047f89515cedddc32a6e281e4b60ef889474ba5"], ["warnings", "01a21676-7e11-7729-b4d5-95109545ae15", "547be88c844f41326156abe7211c94ec01347f993e07567938f724fd11db6b38"], ["callbacks", "01a21676-7e11-7729-b4d5-9511ac6e0cdd", "714c35f9866df2ae1aa07cbd0d16f2485b8cd1e194df9fc7e54e269f568d4a8d"], ["callback_steps", "01a21676-7e11-7729-b4d5-95122e219c36", "84949d762719a42643b5ccf8608ef665eddfe8dab69d2659eadda147f0971a57"], ["warnings", "01a21676-7e11-7729-b4d5-95137223bbc0", "e89c96d4bdb4a2cf0b6161fbead2da6cf32454bed8ea118dcd8bb668b2dab258"], ["callbacks", "01a21676-7e11-7729-b4d5-95147691bbfc", "26099baca42ed5e98a31e3d0473951122afa128804ca1a3988a98b3eb8efafca"], ["callback_steps", "01a21676-7e11-7729-b4d5-9515b935b411", "f9d0da77d33a0316c7ddc64c01dd46efd354a1cd489e6fb2ebece8441e17b817"], ["warnings", "01a21676-7e11-7729-b4d5-951622a2cff0", "9558600870239962d3bcc3449dd25d9d6223c12914bec767589c84007a3fc2ec"], ["callbacks", "01a21676-7e12-7416-8864-d6238a3144a9", "a9cbcc897ebdde2890366cbdb0c328894881a9d05c333bb3621d89cf051ddb07"], ["callback_steps", "01a21676-7e12-7416-8864-d62473ab2bf0", "9630794460e377533daecdb8bd65e04554ed24b3234db0c6523265272b26de4f"], ["warnings", "01a21676-7e12-7416-8864-d625c378b84b", "20769e0e6aeb1ac766828e41290999630fdb1adfcc5c6b84ca8981a1b6ff074f"], ["callback_steps", "01a21676-7e12-7416-8864-d626330e6713", "7df654d9348312ed7cab7666b864a8920eadc311607d1e5877f175c86d6c0639"], ["warnings", "01a21676-7e12-7416-8864-d6272d0e1496", "9a4f9caec911eae113f59f7d2ccf5a0093971011709bf7bd282fbfddae46d108"], ["callback_steps", "01a21676-7e12-7416-8864-d6281b91d3d6", "d8933077b52c37d1d7ff907426f1c2449bcb9cf51e2c10ea3ae01800ff728603"], ["warnings", "01a21676-7e12-7416-8864-d62962d69291", "444a235ffc14f1ab66c1c469a67ffa88ee5efda2b6f534936a180c07c7a327f1"], ["callback_steps", "01a21676-7e12-7416-8864-d62aa28f6aeb", "94b4c90725b33b9e2b8c996651cdc414e0ee00c788b60194160eb1c1d745e75a"], ["warnings", "01a21676-7e12-7416-8864-d62b1f3a3fb2", "dcdf4e664cdd811da35d071818cb08fc8b19f3ed89a14903d7d113dbaee2b79a"]]');
INSERT INTO "audit" VALUES(22,'2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','event measures','01a21676-7c4d-7193-baa7-07c81222faed','{"id":"01a21676-7e41-747b-bb5f-55eb417abff7"}','1cb8c66b66bc19e83722cc03f43b170c2bdb717836fdce94057cbd026bada4b4','ac7da48a999af94ed2f3eb80d127e53336f8aefa8f7963181ffa97c3905d420d','');
INSERT INTO "audit" VALUES(23,'2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','event seen','01a21676-7c4d-7193-baa7-07c81222faed','{"id":"01a21676-7e42-7100-8837-d6c0b9784547"}','ac7da48a999af94ed2f3eb80d127e53336f8aefa8f7963181ffa97c3905d420d','7457b06cef03df6252c63d95f28c7629825e4c1572014988062aac72a81644de','');
INSERT INTO "audit" VALUES(24,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"now","rule":"pressure-severe"}','7457b06cef03df6252c63d95f28c7629825e4c1572014988062aac72a81644de','71adf5e471318a62ffa898a5b8ea022a580967d46fb0500220fa338c9b937b32','');
INSERT INTO "audit" VALUES(25,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"today","rule":"pressure-spike"}','71adf5e471318a62ffa898a5b8ea022a580967d46fb0500220fa338c9b937b32','79004b0827d0bc149e8264f37cd4593e2f9f998c66c9d851f8c5e7e047f380da','');
INSERT INTO "audit" VALUES(26,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"pressure-raised"}','79004b0827d0bc149e8264f37cd4593e2f9f998c66c9d851f8c5e7e047f380da','498eb67b9aa18f14c9fe431a8346b1853e6979618bef72a35d4b0c16f1615da5','');
INSERT INTO "audit" VALUES(27,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"pressure-rise"}','498eb67b9aa18f14c9fe431a8346b1853e6979618bef72a35d4b0c16f1615da5','b8a2c16ad135b451234e7a5ba27fe0edbf8f83940a7b07ab49a1097aa0c507ad','');
INSERT INTO "audit" VALUES(28,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7c4d-7193-baa7-07c81222faed','{"how_soon":"this-week","rule":"pressure-rising"}','b8a2c16ad135b451234e7a5ba27fe0edbf8f83940a7b07ab49a1097aa0c507ad','3c3de1b71ea78c5f8aa27b58f5e2db8af26254bd639d0e05daf439232f4463e3','[["events", "01a21676-7e41-747b-bb5f-55eb417abff7", "cbfbe48076b32c3014509b9bde8c2603a805aef492184e7d0415fd82cd235a1c"], ["events", "01a21676-7e42-7100-8837-d6c0b9784547", "922e2361cbd103eb02c70a4a90af8ce78aa10f6e5efb7be822dc7d8eab1934a6"], ["callback_steps", "01a21676-7e55-77aa-94b9-4e3552ab4920", "6a5fbf4b665f12b9dfb94585521f70a43e0b653fd73efc5d10adb6d9bad6ea60"], ["warnings", "01a21676-7e55-77aa-94b9-4e369fb8804c", "f41edd2448f60030156e9bd0ed3c760056850de232e3d030a100c9069a8fcbb8"], ["callback_steps", "01a21676-7e56-75f1-a759-b88977e94556", "6432f10148875facd095ccd9e38fc42654ac033409e517c773687dfb6d456e64"], ["warnings", "01a21676-7e56-75f1-a759-b88a3de52431", "d76c82d7328dca8e8a7005a1bd68affd42616c6bd7247a1293fe8fb327c79061"], ["callback_steps", "01a21676-7e56-75f1-a759-b88bf4e64c5e", "cac743e154f724d167b64c88b83992945dc9bf78560e569703e0171515ed3aa9"], ["warnings", "01a21676-7e56-75f1-a759-b88cd108fe70", "b81c6f7f29af5f9d4c0f17e80ac63b83a556a9789aa6fc15108a9806fbed8675"], ["callback_steps", "01a21676-7e56-75f1-a759-b88d7461303a", "d747f94cf25f6a24684fb150b47dd90323e7284f679b8b50b655b9460109fd92"], ["warnings", "01a21676-7e56-75f1-a759-b88e6f793dbf", "2236e283adab8d48e8f61ba05a1ed5e48b757324fddca0b51d98f8e8f3acae31"], ["callback_steps", "01a21676-7e56-75f1-a759-b88f81a403e6", "6b3ef8926ea1bf9562170e71599ce269830f281d22f3e90862ddc3f602c3ca65"], ["warnings", "01a21676-7e56-75f1-a759-b890afc33e98", "244c51dba3a513f226a86c19a914b5cb2fe3e7546b59f199f4a6dd7415cefcec"]]');
INSERT INTO "audit" VALUES(29,'2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','event measures','01a21676-7d8d-729e-a3fd-4b36f524a063','{"id":"01a21676-7e62-769a-9f62-8b050fc99c49"}','3c3de1b71ea78c5f8aa27b58f5e2db8af26254bd639d0e05daf439232f4463e3','6039e88d9f7a00aec8b581be7fb1c1c46588da14e0c73fe7d7ef23d5938be049','');
INSERT INTO "audit" VALUES(30,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7d8d-729e-a3fd-4b36f524a063','{"how_soon":"today","rule":"missed-early-visit"}','6039e88d9f7a00aec8b581be7fb1c1c46588da14e0c73fe7d7ef23d5938be049','5e8bcac4b299bdd8440ba0720527c126890c544cd4207218dea1ab91e8110fd1','');
INSERT INTO "audit" VALUES(31,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7d8d-729e-a3fd-4b36f524a063','{"how_soon":"this-week","rule":"no-posture-entry"}','5e8bcac4b299bdd8440ba0720527c126890c544cd4207218dea1ab91e8110fd1','018354884da772d9f3a632f8cd42c0653df5fbc6d00efa71e0ae0aebf23efc60','');
INSERT INTO "audit" VALUES(32,'2027-03-05T10:00:00.000000Z','clock:clock','warning','01a21676-7d8d-729e-a3fd-4b36f524a063','{"how_soon":"this-week","rule":"silent-while-posturing"}','018354884da772d9f3a632f8cd42c0653df5fbc6d00efa71e0ae0aebf23efc60','115ecaf087c4019b98802f0e91abe7b4d58901c0770c4cbc27520b9f8c63bbf0','[["events", "01a21676-7e62-769a-9f62-8b050fc99c49", "bee2b560127e7ab42a31e53d518f4a1e0ebd20bae100afdc837dd4a727493863"], ["callbacks", "01a21676-7e67-7627-ae72-f009d881f364", "d04c577806f46110aa8175e32de00d5a6b3bfb2fa5fa0314c92356bfb69c8877"], ["callback_steps", "01a21676-7e67-7627-ae72-f00a3126b1b2", "89e481128c636cf4e529d69dd579c5f2ad4b131535ce60f37c9083ea5fcce0d0"], ["warnings", "01a21676-7e67-7627-ae72-f00b35b154e4", "96160c46879b1bf307d79bfebe730122cbad4a38bc458dbdfb1eae146ec5f205"], ["callbacks", "01a21676-7e67-7627-ae72-f00cdeb34966", "77355b8aac7da153b598a28fecc87346e7b3ab419957c3d3cb89abcf509270ac"], ["callback_steps", "01a21676-7e67-7627-ae72-f00d2b8676b1", "c777ae01ff1c040accbdcaf4d9b7da8b8d37c8aaf59f2805d04f5f7a638e4f92"], ["warnings", "01a21676-7e67-7627-ae72-f00e538d1dc6", "376a9ecd349ec26c5b601207ad754190861508cbd0f8095bf6cdf23a2826b5f1"], ["callback_steps", "01a21676-7e7d-735f-8de4-16d4ea4556ea", "f0cad893c06b607e080082dca112990901ca4ca54bb63b65bd09983a8125b6ff"], ["warnings", "01a21676-7e7d-735f-8de4-16d53a855c1a", "d56956cdefd907cd8fd93faa65af670d30fdf0482640694c285a0075f375e7d4"]]');
INSERT INTO "audit" VALUES(33,'2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','callback claimed','01a21676-7e11-7729-b4d5-9511ac6e0cdd','null','115ecaf087c4019b98802f0e91abe7b4d58901c0770c4cbc27520b9f8c63bbf0','6705308f5f1595b82ad62d5cb05f2102143f1e98cdae051c07460fe579349bc4','[["callbacks", "01a21676-7e11-7729-b4d5-9511ac6e0cdd", "d1f007f39af5af87d4756957ba99e0b936b1cf4feadfb539da409f4812943e71"], ["callback_steps", "01a21676-7eb6-73e3-87fb-cd270b603fdd", "f56fcccccc6f1ceeb64898595b74d64aad638d5194ce878a28255481677505a1"]]');
INSERT INTO "audit" VALUES(34,'2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','callback attempt','01a21676-7e11-7729-b4d5-9511ac6e0cdd','{"reached":true}','6705308f5f1595b82ad62d5cb05f2102143f1e98cdae051c07460fe579349bc4','0f3868573b0073b02b3d70f1ba79401c1df8c376299a047cbf54b297c301b7a7','[["events", "01a21676-7eca-7496-a39c-903026b5832c", "2adbb9edee576100ae4666caa71a5b43f2079d6f3629fdfe3db81127c2bba055"], ["callback_steps", "01a21676-7eca-7496-a39c-90319a98fba7", "ed27ae48e2ec67bb591b2c4ded26f56ba558b85fe7f09801b53cef5ceafe034e"], ["callbacks", "01a21676-7e11-7729-b4d5-9511ac6e0cdd", "d1f007f39af5af87d4756957ba99e0b936b1cf4feadfb539da409f4812943e71"]]');
INSERT INTO "audit" VALUES(35,'2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','callback settled','01a21676-7e11-7729-b4d5-9511ac6e0cdd','{"outcome":"advice"}','0f3868573b0073b02b3d70f1ba79401c1df8c376299a047cbf54b297c301b7a7','33aa1e721b31f4e5ea2b95c8216b15d0189e90bf07ea08b27ccf3101f9e1d68b','[["callbacks", "01a21676-7e11-7729-b4d5-9511ac6e0cdd", "85c382cb584e08327a502689b9f29972d21501f21fdcf20d620ccc8823393e61"], ["callback_steps", "01a21676-7ee1-70ad-9ef9-8e675a0069c1", "12ec9dc17a3a4182dae3302e9b25282ae83e7e50b03e1415ae8799e35e994131"]]');
INSERT INTO "audit" VALUES(36,'2027-03-05T10:00:00.000000Z','surgeon:01a21676-7c4b-7726-a20e-2f9f4210d0f0','protocol signed','reviews','{"fingerprint":"51499c130f73c9d0"}','33aa1e721b31f4e5ea2b95c8216b15d0189e90bf07ea08b27ccf3101f9e1d68b','580a8723f2c2994bf9509840764f2138dd0d03da3360fe0ff0748dafbbc3297c','[["signatures", "01a21676-7ee9-7620-b8ca-3e6397db7bb1", "3d8b3ef47a033aa19c50ce02b125aa8d0d69b51ad69dbfb4a587d87717dd8a9a"]]');
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
INSERT INTO "callback_steps" VALUES('01a21676-7e03-77f2-bd80-a7f60e37af1d','01a21676-7e02-769a-99eb-c8af7ff473c9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e03-77f2-bd80-a7f9e4e67f50','01a21676-7e03-77f2-bd80-a7f8d93f9b87','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"posture-missed","words":"Only 3 of 12 hours of posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e10-737a-b1d1-7384289b2732','01a21676-7e10-737a-b1d1-7383fc6c453f','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e11-7729-b4d5-950f867bae2d','01a21676-7e10-737a-b1d1-7383fc6c453f','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-04."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e11-7729-b4d5-95122e219c36','01a21676-7e11-7729-b4d5-9511ac6e0cdd','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"infection-suspected","words":"Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e11-7729-b4d5-9515b935b411','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"now","rule":"severe-pain","words":"Severe pain (8 of 10): pressure and infection must be ruled out."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e12-7416-8864-d62473ab2bf0','01a21676-7e12-7416-8864-d6238a3144a9','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"curtain","words":"A curtain or shadow that does not move with the bubble: new detachment until shown otherwise."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e12-7416-8864-d626330e6713','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pain","words":"Pain of 8 of 10, beyond what simple painkillers usually hold."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e12-7416-8864-d6281b91d3d6','01a21676-7e12-7416-8864-d6238a3144a9','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"vision-worse","words":"The patient says that the vision fell."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e12-7416-8864-d62aa28f6aeb','01a21676-7e12-7416-8864-d6238a3144a9','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"vision-said-worse","words":"The patient said that the vision fell. Ask again, whatever the second look said."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e55-77aa-94b9-4e3552ab4920','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"now","rule":"pressure-severe","words":"Pressure 41 mmHg, at or above 40."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e56-75f1-a759-b88977e94556','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"today","rule":"pressure-spike","words":"Pressure 41 mmHg, at or above 30."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e56-75f1-a759-b88bf4e64c5e','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-raised","words":"Pressure 41 mmHg, at or above 24."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e56-75f1-a759-b88d7461303a','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rise","words":"Pressure 41 mmHg, 26 above this eye’s own 15."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e56-75f1-a759-b88f81a403e6','01a21676-7e11-7729-b4d5-95147691bbfc','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"pressure-rising","words":"Pressure 41 mmHg, 26 above what is usual for this eye (15)."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e67-7627-ae72-f00a3126b1b2','01a21676-7e67-7627-ae72-f009d881f364','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"today","rule":"missed-early-visit","words":"The visit “day 1” was due by 2027-03-03 and did not take place."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e67-7627-ae72-f00d2b8676b1','01a21676-7e67-7627-ae72-f00cdeb34966','2027-03-05T10:00:00.000000Z','clock:clock','opened','{"how_soon":"this-week","rule":"no-posture-entry","words":"Nothing logged for posturing on 2027-03-03."}');
INSERT INTO "callback_steps" VALUES('01a21676-7e7d-735f-8de4-16d4ea4556ea','01a21676-7e67-7627-ae72-f00cdeb34966','2027-03-05T10:00:00.000000Z','clock:clock','raised again','{"how_soon":"this-week","rule":"silent-while-posturing","words":"Not heard from for 36 hours in the days of posturing."}');
INSERT INTO "callback_steps" VALUES('01a21676-7eb6-73e3-87fb-cd270b603fdd','01a21676-7e11-7729-b4d5-9511ac6e0cdd','2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','claimed','{"by":"Nora Nurse"}');
INSERT INTO "callback_steps" VALUES('01a21676-7eca-7496-a39c-90319a98fba7','01a21676-7e11-7729-b4d5-9511ac6e0cdd','2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','reached','{"by":"Nora Nurse","next_try":null,"spoke_to":"patient","words":"comes at once"}');
INSERT INTO "callback_steps" VALUES('01a21676-7ee1-70ad-9ef9-8e675a0069c1','01a21676-7e11-7729-b4d5-9511ac6e0cdd','2027-03-05T10:00:00.000000Z','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','settled','{"by":"Nora Nurse","outcome":"advice","words":"comes at two"}');
CREATE TABLE callbacks (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", worry TEXT NOT NULL,
            how_soon TEXT NOT NULL CHECK (how_soon IN ('now', 'today', 'this-week')),
            opened_at TEXT NOT NULL, due_at TEXT NOT NULL,
            state TEXT NOT NULL CHECK (state IN ('waiting', 'claimed', 'settled')),
            claimed_by TEXT REFERENCES staff, claimed_at TEXT, settled_at TEXT, outcome TEXT,
            level INTEGER NOT NULL DEFAULT 0
        , settled_by TEXT REFERENCES staff, next_try_at TEXT, moved_up INTEGER NOT NULL DEFAULT 0) STRICT;
INSERT INTO "callbacks" VALUES('01a21676-7e02-769a-99eb-c8af7ff473c9','01a21676-7c4d-7193-baa7-07c81222faed','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e03-77f2-bd80-a7f8d93f9b87','01a21676-7c4d-7193-baa7-07c81222faed','posture','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e10-737a-b1d1-7383fc6c453f','01a21676-7c4d-7193-baa7-07c81222faed','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e11-7729-b4d5-9511ac6e0cdd','01a21676-7c4d-7193-baa7-07c81222faed','infection','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','settled','01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-05T10:00:00.000000Z','2027-03-05T10:00:00.000000Z','advice',0,'01a21676-7c44-77fc-9d12-b827e14b0bb8',NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e11-7729-b4d5-95147691bbfc','01a21676-7c4d-7193-baa7-07c81222faed','pressure','now','2027-03-05T10:00:00.000000Z','2027-03-05T11:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e12-7416-8864-d6238a3144a9','01a21676-7c4d-7193-baa7-07c81222faed','retina','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e67-7627-ae72-f009d881f364','01a21676-7d8d-729e-a3fd-4b36f524a063','missed-visit','today','2027-03-05T10:00:00.000000Z','2027-03-05T18:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
INSERT INTO "callbacks" VALUES('01a21676-7e67-7627-ae72-f00cdeb34966','01a21676-7d8d-729e-a3fd-4b36f524a063','silence','this-week','2027-03-05T10:00:00.000000Z','2027-03-10T10:00:00.000000Z','waiting',NULL,NULL,NULL,NULL,0,NULL,NULL,0);
CREATE TABLE changed_patients (patient_id TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
INSERT INTO "changed_patients" VALUES('01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "changed_patients" VALUES('01a21676-7d8d-729e-a3fd-4b35d9885fb1');
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
INSERT INTO "consents" VALUES('01a21676-7d98-7313-a6cd-809a64910f60','01a21676-7c4d-7193-baa7-07c7c66471e0','2027-03-02T14:00:00.000000Z','phone',1,'patient','','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8');
CREATE TABLE devices (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, token_hash TEXT NOT NULL UNIQUE,
            used_by TEXT NOT NULL, enrolled_at TEXT NOT NULL, heard_at TEXT NOT NULL, revoked_at TEXT, revoked_by TEXT
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "devices" VALUES('01a21676-7d9d-7603-a1ba-e2ff9f259473','01a21676-7c4d-7193-baa7-07c7c66471e0','4de704b67aabafd629799a63daf6bf7c7d6a195da2787cac3f43b98e9b87a06e','patient','2027-03-02T20:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,NULL,'');
CREATE TABLE enrolments (
            id TEXT PRIMARY KEY, patient_id TEXT NOT NULL REFERENCES patients, code_hash TEXT NOT NULL UNIQUE,
            created_by TEXT NOT NULL, created_at TEXT NOT NULL, expires_at TEXT NOT NULL,
            used_at TEXT, wrong_tries INTEGER NOT NULL DEFAULT 0
        , carer_name TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "enrolments" VALUES('01a21676-7c4f-77ce-b358-f71f29f8134f','01a21676-7c4d-7193-baa7-07c7c66471e0','aa82c5a76fe3f7dca541d4503f058cee3e033b4a13c49776f13d267e57290b4c','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z','2027-03-02T20:00:00.000000Z',0,'');
INSERT INTO "enrolments" VALUES('01a21676-7d8e-75a8-8429-ecac814813ca','01a21676-7d8d-729e-a3fd-4b35d9885fb1','35083776cfc7679e92b136ec16965ea310d158a5d7eeb8ea6232089c05dccd14','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z','2027-03-09T19:00:00.000000Z',NULL,0,'');
CREATE TABLE events (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, at TEXT NOT NULL,
            body TEXT NOT NULL, author TEXT NOT NULL, device_id TEXT REFERENCES devices, sequence INTEGER,
            offset_minutes INTEGER, device_at TEXT, received_at TEXT NOT NULL, corrects TEXT REFERENCES events
        , reason TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000001','01a21676-7c4d-7193-baa7-07c81222faed','posture','2027-03-05T09:00:00.000000Z','{"from":"2027-03-03T08:00:00Z","position":"face-down","to":"2027-03-03T11:00:00Z"}','patient:01a21676-7d9d-7603-a1ba-e2ff9f259473','01a21676-7d9d-7603-a1ba-e2ff9f259473',1,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('0195e5a0-0000-7000-8000-000000000002','01a21676-7c4d-7193-baa7-07c81222faed','symptoms','2027-03-05T09:00:00.000000Z','{"cannot_tell":[],"curtain":true,"pain":8,"vision":"worse","words":""}','patient:01a21676-7d9d-7603-a1ba-e2ff9f259473','01a21676-7d9d-7603-a1ba-e2ff9f259473',2,60,'2027-03-05T09:00:00.000000Z','2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21676-7e41-747b-bb5f-55eb417abff7','01a21676-7c4d-7193-baa7-07c81222faed','measures','2027-03-05T10:00:00.000000Z','{"acuity":"6/60","bubble_percent":85.0,"eye":"right","findings":[],"instrument":"applanation","iop_mmhg":41.0,"notes":""}','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21676-7e42-7100-8837-d6c0b9784547','01a21676-7c4d-7193-baa7-07c81222faed','seen','2027-03-05T10:00:00.000000Z','{"visit":"day 1","visit_id":"01a21676-7c4f-77ce-b358-f71c139e5d43"}','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21676-7e62-769a-9f62-8b050fc99c49','01a21676-7d8d-729e-a3fd-4b36f524a063','measures','2027-03-05T10:00:00.000000Z','{"acuity":"HM","eye":"right","findings":[],"iop_mmhg":14.0,"notes":""}','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
INSERT INTO "events" VALUES('01a21676-7eca-7496-a39c-903026b5832c','01a21676-7c4d-7193-baa7-07c81222faed','heard','2027-03-05T10:00:00.000000Z','{"words":"comes at once"}','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8',NULL,NULL,NULL,NULL,'2027-03-05T10:00:00.000000Z',NULL,'');
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
INSERT INTO "eyes" VALUES('01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7c4d-7193-baa7-07c7c66471e0','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21676-7c4d-7193-baa7-07c953daf9f5','01a21676-7c4d-7193-baa7-07c7c66471e0','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
INSERT INTO "eyes" VALUES('01a21676-7d8d-729e-a3fd-4b36f524a063','01a21676-7d8d-729e-a3fd-4b35d9885fb1','2027-03-02T19:00:00.000000Z',NULL,'right','2027-03-02T19:00:00.000000Z',NULL,NULL);
INSERT INTO "eyes" VALUES('01a21676-7d8d-729e-a3fd-4b37497fc14a','01a21676-7d8d-729e-a3fd-4b35d9885fb1','2027-03-02T19:00:00.000000Z',NULL,'left',NULL,NULL,NULL);
CREATE TABLE faults (
            what TEXT NOT NULL, about TEXT NOT NULL, words TEXT NOT NULL, first_at TEXT NOT NULL, last_at TEXT NOT NULL,
            times INTEGER NOT NULL DEFAULT 1, PRIMARY KEY (what, about)
        ) STRICT;
CREATE TABLE follow_ups (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, at TEXT NOT NULL,
            what TEXT NOT NULL CHECK (what IN ('begun', 'ended', 'resumed')), reason TEXT NOT NULL, words TEXT NOT NULL,
            recorded_by TEXT NOT NULL
        ) STRICT;
INSERT INTO "follow_ups" VALUES('01a21676-7c4f-77ce-b358-f71eb7e89b9a','01a21676-7c4d-7193-baa7-07c81222faed','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8');
INSERT INTO "follow_ups" VALUES('01a21676-7d8e-75a8-8429-ecab29d0d784','01a21676-7d8d-729e-a3fd-4b36f524a063','2027-03-02T19:00:00.000000Z','begun','operation','','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8');
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
INSERT INTO "operation_records" VALUES('01a21676-7c4f-77ce-b358-f71b7c7ca7f4','01a21676-7c4f-77ce-b358-f71a134000c4','right','2027-03-02T14:00:00.000000Z','c2f6','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":95.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":16.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z','');
INSERT INTO "operation_records" VALUES('01a21676-7d8e-75a8-8429-eca8ab35acb9','01a21676-7d8e-75a8-8429-eca796e9fec8','right','2027-03-02T14:00:00.000000Z','silicone-oil','Sol Surgeon','{"baseline":{"acuity":"6/60","iop_mmhg":15.0},"breaks":[{"clock":11.0,"reach":"equator"}],"drops":[{"name":"antibiotic","times_a_day":4,"until":"2027-03-12"}],"fill_percent":90.0,"height_metres":0.0,"indication":"diabetic-traction","lens":"phakic","notes":"","percent":0.0,"posture":{"days":5,"hours_a_day":12.0,"position":"face-down"},"risks":["diabetic"],"steps":[],"steroid_drops_until":"2027-03-31T00:00:00+02:00","steroid_last_day":"2027-03-30"}','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z','');
CREATE TABLE operations (
            id TEXT PRIMARY KEY, eye_id TEXT NOT NULL REFERENCES eyes, created_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "operations" VALUES('01a21676-7c4f-77ce-b358-f71a134000c4','01a21676-7c4d-7193-baa7-07c81222faed','2027-03-02T19:00:00.000000Z');
INSERT INTO "operations" VALUES('01a21676-7d8e-75a8-8429-eca796e9fec8','01a21676-7d8d-729e-a3fd-4b36f524a063','2027-03-02T19:00:00.000000Z');
CREATE TABLE pages_opened (
            id TEXT PRIMARY KEY, at TEXT NOT NULL, who TEXT NOT NULL, page TEXT NOT NULL, about TEXT NOT NULL
        ) STRICT;
CREATE TABLE passkeys (
            id TEXT PRIMARY KEY, staff_id TEXT NOT NULL REFERENCES staff, credential_id TEXT NOT NULL UNIQUE,
            public_key TEXT NOT NULL, sign_count INTEGER NOT NULL CHECK (sign_count >= 0), name TEXT NOT NULL,
            created_at TEXT NOT NULL, used_at TEXT, removed_at TEXT
        ) STRICT;
CREATE TABLE patient_terms (term TEXT NOT NULL, patient_id TEXT NOT NULL REFERENCES patients) STRICT;
INSERT INTO "patient_terms" VALUES('1','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('son','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('person','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('9876','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('on','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('00','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('76','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('s1','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('s','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('009876','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('erson','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('rson','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('09876','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('ia','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('9','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('876','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('pia','01a21676-7c4d-7193-baa7-07c7c66471e0');
INSERT INTO "patient_terms" VALUES('laf','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('ther','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('9876','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('other','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('00','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('76','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('af','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('her','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('s2','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('s','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('009876','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('olaf','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('09876','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('2','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('9','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('876','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
INSERT INTO "patient_terms" VALUES('er','01a21676-7d8d-729e-a3fd-4b35d9885fb1');
CREATE TABLE patients (
            id TEXT PRIMARY KEY, number TEXT NOT NULL UNIQUE, name TEXT NOT NULL, born_on TEXT NOT NULL,
            phone TEXT NOT NULL, language TEXT NOT NULL, created_at TEXT NOT NULL
        , joined_into TEXT REFERENCES patients, reached_by TEXT NOT NULL DEFAULT ''
            CHECK (reached_by IN ('', 'own-phone', 'carer-phone', 'no-app')), reached_since TEXT, carer_phone TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO "patients" VALUES('01a21676-7c4d-7193-baa7-07c7c66471e0','S-1','Pia Person','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
INSERT INTO "patients" VALUES('01a21676-7d8d-729e-a3fd-4b35d9885fb1','S-2','Olaf Other','1952-03-14','+00 9 876','en','2027-03-02T19:00:00.000000Z',NULL,'',NULL,'');
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
INSERT INTO "refused_events" VALUES('0195e5a0-0000-7000-8000-000000000003','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7d9d-7603-a1ba-e2ff9f259473','{"id": "0195e5a0-0000-7000-8000-000000000003", "operation": "01a21676-7c4d-7193-baa7-07c81222faed", "kind": "symptoms", "at": "2027-03-05T09:00:00Z", "offset_minutes": 60, "sequence": 3, "by": "patient", "body": {"pain": 99}}','pain: Input should be less than or equal to 10','2027-03-05T10:00:00.000000Z');
CREATE TABLE sessions (
            id TEXT PRIMARY KEY, token_hash TEXT NOT NULL UNIQUE, staff_id TEXT NOT NULL REFERENCES staff,
            begun_at TEXT NOT NULL, seen_at TEXT NOT NULL, address TEXT NOT NULL, ended_at TEXT, end_reason TEXT
        ) STRICT;
CREATE TABLE settings (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE signatures (
            id TEXT PRIMARY KEY, part TEXT NOT NULL, fingerprint TEXT NOT NULL, signed_by TEXT NOT NULL REFERENCES staff,
            signed_at TEXT NOT NULL
        ) STRICT;
INSERT INTO "signatures" VALUES('01a21676-7ee9-7620-b8ca-3e6397db7bb1','reviews','51499c130f73c9d0','01a21676-7c4b-7726-a20e-2f9f4210d0f0','2027-03-05T10:00:00.000000Z');
CREATE TABLE staff (
            id TEXT PRIMARY KEY, name TEXT NOT NULL, email TEXT NOT NULL UNIQUE, password_hash TEXT NOT NULL, created_at TEXT NOT NULL, left_at TEXT
        , role TEXT NOT NULL DEFAULT 'nurse'
            CHECK (role IN ('nurse', 'surgeon', 'administrator')), totp_secret TEXT, totp_last INTEGER, passkey_asked INTEGER, directory_subject TEXT) STRICT;
INSERT INTO "staff" VALUES('01a21676-7c44-77fc-9d12-b827e14b0bb8','Nora Nurse','nurse@test.invalid','$argon2id$v=19$m=8,t=1,p=1$nc8sXO9oawtRPywX+g+/ZA$G9lOgC6HMEugO2cgoyhOWnFwe1f8kXRdzqh9INqU++g','2027-03-02T14:00:00.000000Z',NULL,'nurse',NULL,NULL,NULL,NULL);
INSERT INTO "staff" VALUES('01a21676-7c4b-7726-a20e-2f9f4210d0f0','Sol Surgeon','surgeon@test.invalid','$argon2id$v=19$m=8,t=1,p=1$TOIAYVKCwPhYRI2HgFwFVA$IHUoSTSDwYNXbLQye9+cuUE9Si97sarsGVxgAoGYboc','2027-03-02T14:00:00.000000Z',NULL,'surgeon',NULL,NULL,NULL,NULL);
CREATE TABLE state_made (only INTEGER PRIMARY KEY CHECK (only = 1), how TEXT NOT NULL) STRICT;
CREATE TABLE tasks (
            id TEXT PRIMARY KEY, callback_id TEXT NOT NULL REFERENCES callbacks,
            eye_id TEXT NOT NULL REFERENCES "eyes", kind TEXT NOT NULL, words TEXT NOT NULL, visit_id TEXT,
            owner TEXT REFERENCES staff, due_at TEXT NOT NULL, made_by TEXT NOT NULL REFERENCES staff, made_at TEXT NOT NULL,
            told_at TEXT, done_at TEXT, done_by TEXT REFERENCES staff, done_words TEXT NOT NULL DEFAULT '',
            given_up INTEGER NOT NULL DEFAULT 0
        , decision TEXT) STRICT;
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
INSERT INTO "visits" VALUES('01a21676-7c4f-77ce-b358-f71c139e5d43','01a21676-7c4d-7193-baa7-07c81222faed','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z',NULL,0,'01a21676-7c4f-77ce-b358-f71c139e5d43',NULL,'');
INSERT INTO "visits" VALUES('01a21676-7c4f-77ce-b358-f71ddf850203','01a21676-7c4d-7193-baa7-07c81222faed','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z',NULL,0,'01a21676-7c4f-77ce-b358-f71ddf850203',NULL,'');
INSERT INTO "visits" VALUES('01a21676-7d8e-75a8-8429-eca9efa1c878','01a21676-7d8d-729e-a3fd-4b36f524a063','day 1','2027-03-03','2027-03-03','2027-03-03','pressure','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z',NULL,0,'01a21676-7d8e-75a8-8429-eca9efa1c878',NULL,'');
INSERT INTO "visits" VALUES('01a21676-7d8e-75a8-8429-ecaaf63093ae','01a21676-7d8d-729e-a3fd-4b36f524a063','week 1','2027-03-10','2027-03-08','2027-03-14','retina','nurse:01a21676-7c44-77fc-9d12-b827e14b0bb8','2027-03-02T19:00:00.000000Z',NULL,0,'01a21676-7d8e-75a8-8429-ecaaf63093ae',NULL,'');
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
INSERT INTO "warnings" VALUES('01a21676-7e03-77f2-bd80-a7f7945e51d1','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e02-769a-99eb-c8af7ff473c9','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e03-77f2-bd80-a7fa6167238e','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e03-77f2-bd80-a7f8d93f9b87','posture-missed','posture','this-week','2027-03-03T23:00:00.000000Z',0.75,'{"date":"2027-03-03","hours":3.0,"target_hours":12.0}','{"share":0.5}','CP','Only 3 of 12 hours of posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e10-737a-b1d1-7385af509761','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e10-737a-b1d1-7383fc6c453f','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e11-7729-b4d5-95109545ae15','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e10-737a-b1d1-7383fc6c453f','no-posture-entry','silence','this-week','2027-03-04T23:00:00.000000Z',1.0,'{"date":"2027-03-04"}','{}','CP','Nothing logged for posturing on 2027-03-04.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e11-7729-b4d5-95137223bbc0','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-9511ac6e0cdd','infection-suspected','infection','now','2027-03-05T09:00:00.000000Z',30.0,'{"pain":8,"vision":"worse"}','{"count":2,"signs":["pain>=4","vision=worse","redness=worse","discharge"]}','BOSU','Possible infection inside the eye: at least 2 of pain, worse vision, more redness, discharge. Pain is absent in about one in five.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e11-7729-b4d5-951622a2cff0','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','severe-pain','pressure','now','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=7"]}','VRS','Severe pain (8 of 10): pressure and infection must be ruled out.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e12-7416-8864-d625c378b84b','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e12-7416-8864-d6238a3144a9','curtain','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"curtain":true,"pain":8}','{"count":1,"signs":["curtain"]}','RD14','A curtain or shadow that does not move with the bubble: new detachment until shown otherwise.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e12-7416-8864-d6272d0e1496','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','pain','pressure','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8}','{"count":1,"signs":["pain>=5"]}','VRS','Pain of 8 of 10, beyond what simple painkillers usually hold.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e12-7416-8864-d62962d69291','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e12-7416-8864-d6238a3144a9','vision-worse','retina','today','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient says that the vision fell.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e12-7416-8864-d62b1f3a3fb2','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e12-7416-8864-d6238a3144a9','vision-said-worse','retina','this-week','2027-03-05T09:00:00.000000Z',19.0,'{"pain":8,"vision":"worse"}','{"count":1,"signs":["vision=worse"]}','Hol09','The patient said that the vision fell. Ask again, whatever the second look said.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e55-77aa-94b9-4e369fb8804c','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','pressure-severe','pressure','now','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":40}','Bern12','Pressure 41 mmHg, at or above 40.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e56-75f1-a759-b88a3de52431','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','pressure-spike','pressure','today','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":30}','Bern12','Pressure 41 mmHg, at or above 30.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e56-75f1-a759-b88cd108fe70','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','pressure-raised','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"instrument":"applanation","iop_mmhg":41.0,"pain":null}','{"mmhg":24}','NICE','Pressure 41 mmHg, at or above 24.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e56-75f1-a759-b88e6f793dbf','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','pressure-rise','pressure','this-week','2027-03-05T10:00:00.000000Z',41.0,'{"baseline_mmhg":15.0,"instrument":"applanation","iop_mmhg":41.0,"pain":null,"risen_mmhg":26.0}','{"mmhg":24,"rise_mmhg":10}','LOH19','Pressure 41 mmHg, 26 above this eye’s own 15.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e56-75f1-a759-b890afc33e98','01a21676-7c4d-7193-baa7-07c81222faed','01a21676-7e11-7729-b4d5-95147691bbfc','pressure-rising','pressure','this-week','2027-03-05T10:00:00.000000Z',26.0,'{"instrument":"applanation","iop_mmhg":41.0,"moved_mmhg":26.0,"pain":null,"usual_mmhg":15.0}','{"by_mmhg":5,"direction":"up","mmhg":18}','SIO','Pressure 41 mmHg, 26 above what is usual for this eye (15).','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e67-7627-ae72-f00b35b154e4','01a21676-7d8d-729e-a3fd-4b36f524a063','01a21676-7e67-7627-ae72-f009d881f364','missed-early-visit','missed-visit','today','2027-03-03T23:00:00.000000Z',1.0,'{"latest":"2027-03-03","visit":"day 1"}','{"latest_from_day":0,"latest_until_day":15}','CP','The visit “day 1” was due by 2027-03-03 and did not take place.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e67-7627-ae72-f00e538d1dc6','01a21676-7d8d-729e-a3fd-4b36f524a063','01a21676-7e67-7627-ae72-f00cdeb34966','no-posture-entry','silence','this-week','2027-03-03T23:00:00.000000Z',1.0,'{"date":"2027-03-03"}','{}','CP','Nothing logged for posturing on 2027-03-03.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
INSERT INTO "warnings" VALUES('01a21676-7e7d-735f-8de4-16d53a855c1a','01a21676-7d8d-729e-a3fd-4b36f524a063','01a21676-7e67-7627-ae72-f00cdeb34966','silent-while-posturing','silence','this-week','2027-03-04T02:00:00.000000Z',1.0,'{"last_heard":"2027-03-02T14:00:00+00:00","silent_hours":36}','{"hours":36,"while_posturing":true}','CP','Not heard from for 36 hours in the days of posturing.','9ce46c045dda65f7','2027-03-05T10:00:00.000000Z');
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
CREATE INDEX passkeys_of_staff ON passkeys (staff_id);
CREATE UNIQUE INDEX staff_by_subject ON staff (directory_subject)
            WHERE directory_subject IS NOT NULL AND left_at IS NULL;
COMMIT;
