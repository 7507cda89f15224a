// Made by schemas/generate.mjs with ajv; do not edit.
var ae=(n,s)=>()=>{try{return s||n((s={exports:{}}).exports,s),s.exports}catch(h){throw s=0,h}};var Y=ae(W=>{"use strict";Object.defineProperty(W,"__esModule",{value:!0});function X(n){let s=n.length,h=0,f=0,o;for(;f<s;)h++,o=n.charCodeAt(f++),o>=55296&&o<=
56319&&f<s&&(o=n.charCodeAt(f),(o&64512)===56320&&f++);return h}W.default=X;X.code=""});var Fe=se,me={type:"object",additionalProperties:!1,required:["version"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},
stock:{type:"string",minLength:1},film:{$ref:"#/definitions/film"},format:{$ref:"#/definitions/format"},exposed:{$ref:"#/definitions/exposed"},iptc:{$ref:"#/def\
initions/iptc"},scans:{type:"string",minLength:1},light:{$ref:"#/definitions/light"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/posi\
tive"},output:{$ref:"#/definitions/outputs"},frames:{type:"object",patternProperties:{"^[0-9]{1,3}[A-Z]?$":{$ref:"#/definitions/frame"}},additionalProperties:!1},
note:{$ref:"#/definitions/note"},fingerprints:{type:"object",additionalProperties:{$ref:"#/definitions/fingerprint"}},automatic:{$ref:"#/definitions/automatic"}}},
w=Object.prototype.hasOwnProperty,y=Y().default,pe={enum:[2,1]};function N(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;
if(!(n===2||n===1)){let r={instancePath:s,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:pe.enum}};e===null?e=[r]:e.push(r),t++}return N.errors=e,t===
0}var oe={enum:["colour-negative","black-and-white-negative","slide"]};function v(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,
t=0;if(!(n==="colour-negative"||n==="black-and-white-negative"||n==="slide")){let r={instancePath:s,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:oe.
enum}};e===null?e=[r]:e.push(r),t++}return v.errors=e,t===0}var le={type:["string","array"],items:{type:"number",minimum:1,maximum:1e3},minItems:2,maxItems:2,pattern:"\
^(?:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|126|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)\
$",examples:["135","135-half","24x24","24x65","645","6x6","6x7","6x8","6x9","6x12","6x17","127-4x3","127-4x4","127-4x6","126","110","cine-35","cine-16","cine-16\
w","cine-9.5","cine-8","cine-8s","4x5in","5x7in","8x10in"]},ue=new RegExp("^(?:135|135-half|24x24|24x65|645|6x6|6x7|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|12\
6|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$","u");function I(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){
let e=null,t=0;if(typeof n!="string"&&!Array.isArray(n)){let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:le.type}};e===null?e=[r]:e.push(r),
t++}if(typeof n=="string"&&!ue.test(n)){let r={instancePath:s,schemaPath:"#/pattern",keyword:"pattern",params:{pattern:"^(?:135|135-half|24x24|24x65|645|6x6|6x7\
|6x8|6x9|6x12|6x17|127-4x3|127-4x4|127-4x6|126|110|cine-35|cine-16|cine-16w|cine-9\\.5|cine-8|cine-8s|4x5in|5x7in|8x10in)$"}};e===null?e=[r]:e.push(r),t++}if(Array.
isArray(n)){if(n.length>2){let i={instancePath:s,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[i]:e.push(i),t++}if(n.length<2){let i={
instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++){let a=n[i];if(typeof a==
"number"&&isFinite(a)){if(a>1e3||isNaN(a)){let m={instancePath:s+"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e3}};e===null?
e=[m]:e.push(m),t++}if(a<1||isNaN(a)){let m={instancePath:s+"/"+i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===null?e=[m]:
e.push(m),t++}}else{let m={instancePath:s+"/"+i,schemaPath:"#/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}return I.errors=
e,t===0}var ee={type:"object",additionalProperties:!1,properties:{camera:{type:"string",maxLength:200},lens:{type:"string",maxLength:200},date:{type:"string",pattern:"\
^[0-9]{4}-[0-9]{2}-[0-9]{2}$"},time:{type:"string",pattern:"^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$"},rated:{type:"number",
minimum:.1,maximum:1e5},push:{type:"number",minimum:-5,maximum:5},place:{type:"string",maxLength:200},coordinates:{type:"array",minItems:2,maxItems:2,items:[{type:"\
number",minimum:-90,maximum:90},{type:"number",minimum:-180,maximum:180}]},focal:{type:"number",minimum:.5,maximum:2e4},aperture:{type:"number",minimum:.5,maximum:2e3},
shutter:{type:["number","string"],minimum:1e-5,maximum:1e6,pattern:"^1/[1-9][0-9]{0,5}$"},filter:{type:"string",maxLength:200},developer:{type:"string",maxLength:200}}},
fe=new RegExp("^[0-9]{4}-[0-9]{2}-[0-9]{2}$","u"),he=new RegExp("^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$","u"),ce=new RegExp(
"^1/[1-9][0-9]{0,5}$","u");function A(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(
n)){for(let r in n)if(!w.call(ee.properties,r)){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(n.camera!==void 0){let r=n.camera;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+"/camera",schemaPath:"#/properties/c\
amera/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/camera",schemaPath:"#/properties/camera/type",
keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.lens!==void 0){let r=n.lens;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+
"/lens",schemaPath:"#/properties/lens/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/lens",schemaPath:"\
#/properties/lens/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.date!==void 0){let r=n.date;if(typeof r=="string"){if(!fe.test(
r)){let i={instancePath:s+"/date",schemaPath:"#/properties/date/pattern",keyword:"pattern",params:{pattern:"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};e===null?e=[i]:e.push(
i),t++}}else{let i={instancePath:s+"/date",schemaPath:"#/properties/date/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.time!==
void 0){let r=n.time;if(typeof r=="string"){if(!he.test(r)){let i={instancePath:s+"/time",schemaPath:"#/properties/time/pattern",keyword:"pattern",params:{pattern:"\
^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?([+-](0[0-9]|1[0-4]):[0-5][0-9])?$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/time",schemaPath:"#\
/properties/time/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.rated!==void 0){let r=n.rated;if(typeof r=="number"&&isFinite(r)){
if(r>1e5||isNaN(r)){let i={instancePath:s+"/rated",schemaPath:"#/properties/rated/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[i]:
e.push(i),t++}if(r<.1||isNaN(r)){let i={instancePath:s+"/rated",schemaPath:"#/properties/rated/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===
null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/rated",schemaPath:"#/properties/rated/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(
i),t++}}if(n.push!==void 0){let r=n.push;if(typeof r=="number"&&isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:s+"/push",schemaPath:"#/properties/push/maxim\
um",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[i]:e.push(i),t++}if(r<-5||isNaN(r)){let i={instancePath:s+"/push",schemaPath:"#/properties/p\
ush/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/push",schemaPath:"#/properties/push\
/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.place!==void 0){let r=n.place;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+
"/place",schemaPath:"#/properties/place/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/place",schemaPath:"\
#/properties/place/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.coordinates!==void 0){let r=n.coordinates;if(Array.isArray(r)){
if(r.length>2){let a={instancePath:s+"/coordinates",schemaPath:"#/properties/coordinates/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),
t++}if(r.length<2){let a={instancePath:s+"/coordinates",schemaPath:"#/properties/coordinates/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(
a),t++}let i=r.length;if(i>0){let a=r[0];if(typeof a=="number"&&isFinite(a)){if(a>90||isNaN(a)){let m={instancePath:s+"/coordinates/0",schemaPath:"#/properties/\
coordinates/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:90}};e===null?e=[m]:e.push(m),t++}if(a<-90||isNaN(a)){let m={instancePath:s+"/coord\
inates/0",schemaPath:"#/properties/coordinates/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-90}};e===null?e=[m]:e.push(m),t++}}else{let m={
instancePath:s+"/coordinates/0",schemaPath:"#/properties/coordinates/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>1){
let a=r[1];if(typeof a=="number"&&isFinite(a)){if(a>180||isNaN(a)){let m={instancePath:s+"/coordinates/1",schemaPath:"#/properties/coordinates/items/1/maximum",
keyword:"maximum",params:{comparison:"<=",limit:180}};e===null?e=[m]:e.push(m),t++}if(a<-180||isNaN(a)){let m={instancePath:s+"/coordinates/1",schemaPath:"#/pro\
perties/coordinates/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-180}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/coordinat\
es/1",schemaPath:"#/properties/coordinates/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let i={instancePath:s+"/coor\
dinates",schemaPath:"#/properties/coordinates/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.focal!==void 0){let r=n.focal;if(typeof r==
"number"&&isFinite(r)){if(r>2e4||isNaN(r)){let i={instancePath:s+"/focal",schemaPath:"#/properties/focal/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e4}};
e===null?e=[i]:e.push(i),t++}if(r<.5||isNaN(r)){let i={instancePath:s+"/focal",schemaPath:"#/properties/focal/minimum",keyword:"minimum",params:{comparison:">=",
limit:.5}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/focal",schemaPath:"#/properties/focal/type",keyword:"type",params:{type:"number"}};e===null?
e=[i]:e.push(i),t++}}if(n.aperture!==void 0){let r=n.aperture;if(typeof r=="number"&&isFinite(r)){if(r>2e3||isNaN(r)){let i={instancePath:s+"/aperture",schemaPath:"\
#/properties/aperture/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e3}};e===null?e=[i]:e.push(i),t++}if(r<.5||isNaN(r)){let i={instancePath:s+"/ape\
rture",schemaPath:"#/properties/aperture/minimum",keyword:"minimum",params:{comparison:">=",limit:.5}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+
"/aperture",schemaPath:"#/properties/aperture/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.shutter!==void 0){let r=n.shutter;
if(!(typeof r=="number"&&isFinite(r))&&typeof r!="string"){let i={instancePath:s+"/shutter",schemaPath:"#/properties/shutter/type",keyword:"type",params:{type:ee.
properties.shutter.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>1e6||isNaN(r)){let i={instancePath:s+"/shutter",schemaPath:"#/pr\
operties/shutter/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e6}};e===null?e=[i]:e.push(i),t++}if(r<1e-5||isNaN(r)){let i={instancePath:s+"/shutte\
r",schemaPath:"#/properties/shutter/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-5}};e===null?e=[i]:e.push(i),t++}}if(typeof r=="string"&&!ce.test(
r)){let i={instancePath:s+"/shutter",schemaPath:"#/properties/shutter/pattern",keyword:"pattern",params:{pattern:"^1/[1-9][0-9]{0,5}$"}};e===null?e=[i]:e.push(i),
t++}}if(n.filter!==void 0){let r=n.filter;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+"/filter",schemaPath:"#/properties/filter/maxLength",keyword:"\
maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/filter",schemaPath:"#/properties/filter/type",keyword:"type",params:{type:"\
string"}};e===null?e=[i]:e.push(i),t++}}if(n.developer!==void 0){let r=n.developer;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+"/developer",schemaPath:"\
#/properties/developer/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/developer",schemaPath:"#/pr\
operties/developer/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}return A.errors=e,t===0}function D(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r===
"caption"||r==="keywords"||r==="creator"||r==="copyright")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(n.caption!==void 0){let r=n.caption;if(typeof r=="string"){if(y(r)>2e3){let i={instancePath:s+"/caption",schemaPath:"#/propertie\
s/caption/maxLength",keyword:"maxLength",params:{limit:2e3}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/caption",schemaPath:"#/properties/captio\
n/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.keywords!==void 0){let r=n.keywords;if(Array.isArray(r)){if(r.length>100){let a={
instancePath:s+"/keywords",schemaPath:"#/properties/keywords/maxItems",keyword:"maxItems",params:{limit:100}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<
i;a++){let m=r[a];if(typeof m=="string"){if(y(m)>64){let p={instancePath:s+"/keywords/"+a,schemaPath:"#/properties/keywords/items/maxLength",keyword:"maxLength",
params:{limit:64}};e===null?e=[p]:e.push(p),t++}if(y(m)<1){let p={instancePath:s+"/keywords/"+a,schemaPath:"#/properties/keywords/items/minLength",keyword:"minL\
ength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/keywords/"+a,schemaPath:"#/properties/keywords/items/type",keyword:"type",params:{
type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/keywords",schemaPath:"#/properties/keywords/type",keyword:"type",params:{type:"array"}};
e===null?e=[i]:e.push(i),t++}}if(n.creator!==void 0){let r=n.creator;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+"/creator",schemaPath:"#/properti\
es/creator/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/creator",schemaPath:"#/properties/creat\
or/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.copyright!==void 0){let r=n.copyright;if(typeof r=="string"){if(y(r)>200){let i={
instancePath:s+"/copyright",schemaPath:"#/properties/copyright/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+
"/copyright",schemaPath:"#/properties/copyright/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return D.errors=e,t===0}var re={type:"object",additionalProperties:!1,properties:{blank:{
type:"string",minLength:1},flare:{type:["number","array"],minimum:0,maximum:.2,items:{type:"number",minimum:0,maximum:.2},minItems:3,maxItems:3},times:{enum:["w\
ritten","nominal"]},spots:{$ref:"#/definitions/spots"},lens:{$ref:"#/definitions/lens"}}};var ye={type:["array","object"],minItems:3,maxItems:3,items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4},{type:"number",minimum:1e-5,
maximum:.1}],required:["line","width"],additionalProperties:!1,properties:{line:{type:"array",minItems:2,maxItems:200,items:{type:"array",minItems:2,maxItems:2,
items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4}]}},width:{type:"number",minimum:2e-5,maximum:.05}}};function H(n,{instancePath:s="",
parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(!n||typeof n!="object"){let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:ye.
type}};e===null?e=[r]:e.push(r),t++}if(Array.isArray(n)){if(n.length>3){let i={instancePath:s,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?
e=[i]:e.push(i),t++}if(n.length<3){let i={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}let r=n.length;
if(r>0){let i=n[0];if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let a={instancePath:s+"/0",schemaPath:"#/items/0/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:1}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/0",schemaPath:"#/items/0/minimum",keyword:"minimum",params:{comparison:">=",
limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/0",schemaPath:"#/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(
a),t++}}if(r>1){let i=n[1];if(typeof i=="number"&&isFinite(i)){if(i>4||isNaN(i)){let a={instancePath:s+"/1",schemaPath:"#/items/1/maximum",keyword:"maximum",params:{
comparison:"<=",limit:4}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/1",schemaPath:"#/items/1/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/1",schemaPath:"#/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.
push(a),t++}}if(r>2){let i=n[2];if(typeof i=="number"&&isFinite(i)){if(i>.1||isNaN(i)){let a={instancePath:s+"/2",schemaPath:"#/items/2/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:.1}};e===null?e=[a]:e.push(a),t++}if(i<1e-5||isNaN(i)){let a={instancePath:s+"/2",schemaPath:"#/items/2/minimum",keyword:"minim\
um",params:{comparison:">=",limit:1e-5}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/2",schemaPath:"#/items/2/type",keyword:"type",params:{type:"\
number"}};e===null?e=[a]:e.push(a),t++}}}if(n&&typeof n=="object"&&!Array.isArray(n)){if(n.line===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"\
required",params:{missingProperty:"line"}};e===null?e=[r]:e.push(r),t++}if(n.width===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{
missingProperty:"width"}};e===null?e=[r]:e.push(r),t++}for(let r in n)if(!(r==="line"||r==="width")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"\
additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.line!==void 0){let r=n.line;if(Array.isArray(r)){if(r.length>200){let a={
instancePath:s+"/line",schemaPath:"#/properties/line/maxItems",keyword:"maxItems",params:{limit:200}};e===null?e=[a]:e.push(a),t++}if(r.length<2){let a={instancePath:s+
"/line",schemaPath:"#/properties/line/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];
if(Array.isArray(m)){if(m.length>2){let l={instancePath:s+"/line/"+a,schemaPath:"#/properties/line/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}if(m.length<2){let l={instancePath:s+"/line/"+a,schemaPath:"#/properties/line/items/minItems",keyword:"minItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>1||isNaN(l)){let u={instancePath:s+"/line/"+a+"/0",schemaPath:"#/\
properties/line/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:s+
"/line/"+a+"/0",schemaPath:"#/properties/line/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:s+"/line/"+a+"/0",schemaPath:"#/properties/line/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];
if(typeof l=="number"&&isFinite(l)){if(l>4||isNaN(l)){let u={instancePath:s+"/line/"+a+"/1",schemaPath:"#/properties/line/items/items/1/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:4}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:s+"/line/"+a+"/1",schemaPath:"#/properties/line/items/it\
ems/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/line/"+a+"/1",schemaPath:"#/proper\
ties/line/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:s+"/line/"+a,schemaPath:"#/properti\
es/line/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/line",schemaPath:"#/properties/line/type",
keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.width!==void 0){let r=n.width;if(typeof r=="number"&&isFinite(r)){if(r>.05||isNaN(r)){let i={
instancePath:s+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{comparison:"<=",limit:.05}};e===null?e=[i]:e.push(i),t++}if(r<2e-5||isNaN(
r)){let i={instancePath:s+"/width",schemaPath:"#/properties/width/minimum",keyword:"minimum",params:{comparison:">=",limit:2e-5}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:s+"/width",schemaPath:"#/properties/width/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}return H.errors=e,t===
0}function j(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>5e3){let i={instancePath:s,
schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:5e3}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++)H(n[i],{instancePath:s+"/"+i,parentData:n,
parentDataProperty:i,rootData:o})||(e=e===null?H.errors:e.concat(H.errors),t=e.length)}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[r]:e.push(r),t++}return j.errors=e,t===0}function k(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>2){let i={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[i]:e.push(i),t++}if(n.length<1){let i={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:1}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++){let a=n[i];if(typeof a=="number"&&isFinite(a)){if(a>.02||isNaN(a)){let m={instancePath:s+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:.02}};e===null?e=[m]:e.push(m),t++}if(a<-.02||isNaN(a)){let m={instancePath:s+
"/"+i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-.02}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+i,schemaPath:"\
#/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[r]:e.push(r),t++}return k.errors=e,t===0}function R(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r===
"radial"||r==="oval"||r==="gradient")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===
null?e=[i]:e.push(i),t++}if(n.radial!==void 0){let r=n.radial;if(Array.isArray(r)){if(r.length>2){let a={instancePath:s+"/radial",schemaPath:"#/properties/radia\
l/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={instancePath:s+"/radial",schemaPath:"#/properties/radial/min\
Items",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>
4||isNaN(m)){let p={instancePath:s+"/radial/"+a,schemaPath:"#/properties/radial/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[p]:
e.push(p),t++}if(m<-4||isNaN(m)){let p={instancePath:s+"/radial/"+a,schemaPath:"#/properties/radial/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};
e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/radial/"+a,schemaPath:"#/properties/radial/items/type",keyword:"type",params:{type:"number"}};e===null?
e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/radial",schemaPath:"#/properties/radial/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),
t++}}if(n.oval!==void 0){let r=n.oval;if(typeof r=="number"&&isFinite(r)){if(r>4||isNaN(r)){let i={instancePath:s+"/oval",schemaPath:"#/properties/oval/maximum",
keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[i]:e.push(i),t++}if(r<-4||isNaN(r)){let i={instancePath:s+"/oval",schemaPath:"#/properties/oval/\
minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/oval",schemaPath:"#/properties/oval/typ\
e",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.gradient!==void 0){let r=n.gradient;if(Array.isArray(r)){if(r.length>2){let a={instancePath:s+
"/gradient",schemaPath:"#/properties/gradient/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}if(r.length<2){let a={instancePath:s+"\
/gradient",schemaPath:"#/properties/gradient/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];
if(typeof m=="number"&&isFinite(m)){if(m>4||isNaN(m)){let p={instancePath:s+"/gradient/"+a,schemaPath:"#/properties/gradient/items/maximum",keyword:"maximum",params:{
comparison:"<=",limit:4}};e===null?e=[p]:e.push(p),t++}if(m<-4||isNaN(m)){let p={instancePath:s+"/gradient/"+a,schemaPath:"#/properties/gradient/items/minimum",
keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/gradient/"+a,schemaPath:"#/properties/gradient/i\
tems/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/gradient",schemaPath:"#/properties/gradient/type",
keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?
e=[r]:e.push(r),t++}return R.errors=e,t===0}function Z(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="\
object"&&!Array.isArray(n)){for(let r in n)if(!(r==="lateral"||r==="distortion"||r==="falloff")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"\
additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.lateral!==void 0){let r=n.lateral;if(r&&typeof r=="object"&&!Array.isArray(
r)){for(let i in r)if(!(i==="red"||i==="blue")){let a={instancePath:s+"/lateral",schemaPath:"#/properties/lateral/additionalProperties",keyword:"additionalPrope\
rties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),t++}r.red!==void 0&&(k(r.red,{instancePath:s+"/lateral/red",parentData:r,parentDataProperty:"red",
rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length)),r.blue!==void 0&&(k(r.blue,{instancePath:s+"/lateral/blue",parentData:r,parentDataProperty:"b\
lue",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length))}else{let i={instancePath:s+"/lateral",schemaPath:"#/properties/lateral/type",keyword:"ty\
pe",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}if(n.distortion!==void 0){let r=n.distortion;if(Array.isArray(r)){if(r.length>2){let a={instancePath:s+
"/distortion",schemaPath:"#/properties/distortion/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={instancePath:s+
"/distortion",schemaPath:"#/properties/distortion/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){
let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>.1||isNaN(m)){let p={instancePath:s+"/distortion/"+a,schemaPath:"#/properties/distortion/items/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:.1}};e===null?e=[p]:e.push(p),t++}if(m<-.1||isNaN(m)){let p={instancePath:s+"/distortion/"+a,schemaPath:"#/properties/dis\
tortion/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-.1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/distortion/"+a,schemaPath:"\
#/properties/distortion/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/distortion",schemaPath:"#\
/properties/distortion/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}n.falloff!==void 0&&(R(n.falloff,{instancePath:s+"/falloff",parentData:n,
parentDataProperty:"falloff",rootData:o})||(e=e===null?R.errors:e.concat(R.errors),t=e.length))}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}return Z.errors=e,t===0}function $(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,
t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r==="blank"||r==="flare"||r==="times"||r==="spots"||r==="lens")){let i={instancePath:s,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.blank!==void 0){let r=n.blank;if(typeof r==
"string"){if(y(r)<1){let i={instancePath:s+"/blank",schemaPath:"#/properties/blank/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:s+"/blank",schemaPath:"#/properties/blank/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.flare!==void 0){let r=n.
flare;if(!(typeof r=="number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:s+"/flare",schemaPath:"#/properties/flare/type",keyword:"type",params:{type:re.
properties.flare.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>.2||isNaN(r)){let i={instancePath:s+"/flare",schemaPath:"#/propert\
ies/flare/maximum",keyword:"maximum",params:{comparison:"<=",limit:.2}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+"/flare",schemaPath:"\
#/properties/flare/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>3){let a={instancePath:s+
"/flare",schemaPath:"#/properties/flare/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:s+"/flare",
schemaPath:"#/properties/flare/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m==
"number"&&isFinite(m)){if(m>.2||isNaN(m)){let p={instancePath:s+"/flare/"+a,schemaPath:"#/properties/flare/items/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:.2}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:s+"/flare/"+a,schemaPath:"#/properties/flare/items/minimum",keyword:"minimum",
params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/flare/"+a,schemaPath:"#/properties/flare/items/type",keyword:"type",
params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}if(n.times!==void 0){let r=n.times;if(!(r==="written"||r==="nominal")){let i={instancePath:s+"/times",schemaPath:"\
#/properties/times/enum",keyword:"enum",params:{allowedValues:re.properties.times.enum}};e===null?e=[i]:e.push(i),t++}}n.spots!==void 0&&(j(n.spots,{instancePath:s+
"/spots",parentData:n,parentDataProperty:"spots",rootData:o})||(e=e===null?j.errors:e.concat(j.errors),t=e.length)),n.lens!==void 0&&(Z(n.lens,{instancePath:s+"\
/lens",parentData:n,parentDataProperty:"lens",rootData:o})||(e=e===null?Z.errors:e.concat(Z.errors),t=e.length))}else{let r={instancePath:s,schemaPath:"#/type",
keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return $.errors=e,t===0}var de={type:"object",additionalProperties:!1,properties:{base:{$ref:"\
#/definitions/base"},gamma:{type:["number","array"],minimum:.1,maximum:3,items:{type:"number",minimum:.1,maximum:3},minItems:3,maxItems:3},curve:{$ref:"#/defini\
tions/filmCurve"},unmix:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/definitions/unmixRow"}},colour:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/def\
initions/colourRow"}}}};var Pe={type:"object",additionalProperties:!1,required:["scan"],properties:{scan:{type:"string",minLength:1},area:{type:"array",minItems:4,maxItems:4,items:[{type:"\
number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:1},{type:"number",minimum:1e-4,maximum:1},{type:"number",minimum:1e-4,maximum:1}]},scatter:{type:[
"number","array"],minimum:0,maximum:2,items:{type:"number",minimum:0,maximum:2},minItems:3,maxItems:3}}};function V(n,{instancePath:s="",parentData:h,parentDataProperty:f,
rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){if(n.scan===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"require\
d",params:{missingProperty:"scan"}};e===null?e=[r]:e.push(r),t++}for(let r in n)if(!(r==="scan"||r==="area"||r==="scatter")){let i={instancePath:s,schemaPath:"#\
/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.scan!==void 0){let r=n.scan;if(typeof r==
"string"){if(y(r)<1){let i={instancePath:s+"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:s+"/scan",schemaPath:"#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.area!==void 0){let r=n.
area;if(Array.isArray(r)){if(r.length>4){let a={instancePath:s+"/area",schemaPath:"#/properties/area/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[
a]:e.push(a),t++}if(r.length<4){let a={instancePath:s+"/area",schemaPath:"#/properties/area/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[a]:e.push(
a),t++}let i=r.length;if(i>0){let a=r[0];if(typeof a=="number"&&isFinite(a)){if(a>1||isNaN(a)){let m={instancePath:s+"/area/0",schemaPath:"#/properties/area/ite\
ms/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.push(m),t++}if(a<0||isNaN(a)){let m={instancePath:s+"/area/0",schemaPath:"#/p\
roperties/area/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/0",schemaPath:"\
#/properties/area/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>1){let a=r[1];if(typeof a=="number"&&isFinite(a)){if(a>
1||isNaN(a)){let m={instancePath:s+"/area/1",schemaPath:"#/properties/area/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.
push(m),t++}if(a<0||isNaN(a)){let m={instancePath:s+"/area/1",schemaPath:"#/properties/area/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/1",schemaPath:"#/properties/area/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}if(i>2){let a=r[2];if(typeof a=="number"&&isFinite(a)){if(a>1||isNaN(a)){let m={instancePath:s+"/area/2",schemaPath:"#/properties/area/items/\
2/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.push(m),t++}if(a<1e-4||isNaN(a)){let m={instancePath:s+"/area/2",schemaPath:"#/p\
roperties/area/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/2",schemaPath:"\
#/properties/area/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>3){let a=r[3];if(typeof a=="number"&&isFinite(a)){if(a>
1||isNaN(a)){let m={instancePath:s+"/area/3",schemaPath:"#/properties/area/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[m]:e.
push(m),t++}if(a<1e-4||isNaN(a)){let m={instancePath:s+"/area/3",schemaPath:"#/properties/area/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/area/3",schemaPath:"#/properties/area/items/3/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}}else{let i={instancePath:s+"/area",schemaPath:"#/properties/area/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.
scatter!==void 0){let r=n.scatter;if(!(typeof r=="number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:s+"/scatter",schemaPath:"#/properties/scatter/ty\
pe",keyword:"type",params:{type:Pe.properties.scatter.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>2||isNaN(r)){let i={instancePath:s+
"/scatter",schemaPath:"#/properties/scatter/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+
"/scatter",schemaPath:"#/properties/scatter/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.
length>3){let a={instancePath:s+"/scatter",schemaPath:"#/properties/scatter/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<
3){let a={instancePath:s+"/scatter",schemaPath:"#/properties/scatter/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>2||isNaN(m)){let p={instancePath:s+"/scatter/"+a,schemaPath:"#/properties/scatter/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:s+"/scatter/"+a,schemaPath:"#/p\
roperties/scatter/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/scatter/"+a,schemaPath:"\
#/properties/scatter/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"\
type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return V.errors=e,t===0}function C(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){
let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r==="density"||r==="read")){let i={instancePath:s,schemaPath:"#/additionalProper\
ties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.density!==void 0){let r=n.density;if(Array.isArray(r)){if(r.
length>3){let a={instancePath:s+"/density",schemaPath:"#/properties/density/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<
3){let a={instancePath:s+"/density",schemaPath:"#/properties/density/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>5||isNaN(m)){let p={instancePath:s+"/density/"+a,schemaPath:"#/properties/density/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[p]:e.push(p),t++}if(m<-1||isNaN(m)){let p={instancePath:s+"/density/"+a,schemaPath:"#/\
properties/density/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/density/"+a,schemaPath:"\
#/properties/density/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/density",schemaPath:"#/prope\
rties/density/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}n.read!==void 0&&(V(n.read,{instancePath:s+"/read",parentData:n,parentDataProperty:"\
read",rootData:o})||(e=e===null?V.errors:e.concat(V.errors),t=e.length))}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===
null?e=[r]:e.push(r),t++}return C.errors=e,t===0}function d(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>256){let i={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[i]:e.push(i),t++}if(n.length<2){let i={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",
params:{limit:2}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++){let a=n[i];if(typeof a=="number"&&isFinite(a)){if(a>6||isNaN(a)){let m={instancePath:s+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:6}};e===null?e=[m]:e.push(m),t++}if(a<-1||isNaN(a)){let m={instancePath:s+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return d.errors=e,t===0}function _(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;
if(n&&typeof n=="object"&&!Array.isArray(n)){if(n.logH===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"logH"}};
e===null?e=[r]:e.push(r),t++}for(let r in n)if(!(r==="logH"||r==="red"||r==="green"||r==="blue"||r==="density"||r==="mid")){let i={instancePath:s,schemaPath:"#/\
additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.logH!==void 0){let r=n.logH;if(Array.isArray(
r)){if(r.length>256){let a={instancePath:s+"/logH",schemaPath:"#/properties/logH/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[a]:e.push(a),t++}if(r.
length<2){let a={instancePath:s+"/logH",schemaPath:"#/properties/logH/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>8||isNaN(m)){let p={instancePath:s+"/logH/"+a,schemaPath:"#/properties/logH/items/maxim\
um",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[p]:e.push(p),t++}if(m<-8||isNaN(m)){let p={instancePath:s+"/logH/"+a,schemaPath:"#/propertie\
s/logH/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/logH/"+a,schemaPath:"#/pro\
perties/logH/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/logH",schemaPath:"#/properties/logH/\
type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.red!==void 0&&(d(n.red,{instancePath:s+"/red",parentData:n,parentDataProperty:"re\
d",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),n.green!==void 0&&(d(n.green,{instancePath:s+"/green",parentData:n,parentDataProperty:"gre\
en",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),n.blue!==void 0&&(d(n.blue,{instancePath:s+"/blue",parentData:n,parentDataProperty:"blue",
rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),n.density!==void 0&&(d(n.density,{instancePath:s+"/density",parentData:n,parentDataProperty:"\
density",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),n.mid!==void 0){let r=n.mid;if(typeof r=="number"&&isFinite(r)){if(r>8||isNaN(r)){let i={
instancePath:s+"/mid",schemaPath:"#/properties/mid/maximum",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[i]:e.push(i),t++}if(r<-8||isNaN(r)){
let i={instancePath:s+"/mid",schemaPath:"#/properties/mid/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:s+"/mid",schemaPath:"#/properties/mid/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return _.errors=e,t===0}function O(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>3){let i={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}if(n.length<3){let i={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++){let a=n[i];if(typeof a=="number"&&isFinite(a)){if(a>4||isNaN(a)){let m={instancePath:s+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[m]:e.push(m),t++}if(a<-4||isNaN(a)){let m={instancePath:s+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return O.errors=e,t===0}function T(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>3){let i={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}if(n.length<3){let i={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++){let a=n[i];if(typeof a=="number"&&isFinite(a)){if(a>5||isNaN(a)){let m={instancePath:s+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[m]:e.push(m),t++}if(a<-5||isNaN(a)){let m={instancePath:s+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return T.errors=e,t===0}function P(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;
if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r==="base"||r==="gamma"||r==="curve"||r==="unmix"||r==="colour")){let i={instancePath:s,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.base!==void 0&&(C(n.base,{instancePath:s+
"/base",parentData:n,parentDataProperty:"base",rootData:o})||(e=e===null?C.errors:e.concat(C.errors),t=e.length)),n.gamma!==void 0){let r=n.gamma;if(!(typeof r==
"number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:s+"/gamma",schemaPath:"#/properties/gamma/type",keyword:"type",params:{type:de.properties.gamma.type}};
e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>3||isNaN(r)){let i={instancePath:s+"/gamma",schemaPath:"#/properties/gamma/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:3}};e===null?e=[i]:e.push(i),t++}if(r<.1||isNaN(r)){let i={instancePath:s+"/gamma",schemaPath:"#/properties/gamma/minimum",
keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>3){let a={instancePath:s+"/gamma",schemaPath:"\
#/properties/gamma/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:s+"/gamma",schemaPath:"#/prope\
rties/gamma/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(
m)){if(m>3||isNaN(m)){let p={instancePath:s+"/gamma/"+a,schemaPath:"#/properties/gamma/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?
e=[p]:e.push(p),t++}if(m<.1||isNaN(m)){let p={instancePath:s+"/gamma/"+a,schemaPath:"#/properties/gamma/items/minimum",keyword:"minimum",params:{comparison:">=",
limit:.1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/gamma/"+a,schemaPath:"#/properties/gamma/items/type",keyword:"type",params:{type:"number"}};
e===null?e=[p]:e.push(p),t++}}}}if(n.curve!==void 0&&(_(n.curve,{instancePath:s+"/curve",parentData:n,parentDataProperty:"curve",rootData:o})||(e=e===null?_.errors:
e.concat(_.errors),t=e.length)),n.unmix!==void 0){let r=n.unmix;if(Array.isArray(r)){if(r.length>3){let a={instancePath:s+"/unmix",schemaPath:"#/properties/unmi\
x/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:s+"/unmix",schemaPath:"#/properties/unmix/minIt\
ems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++)O(r[a],{instancePath:s+"/unmix/"+a,parentData:r,parentDataProperty:a,
rootData:o})||(e=e===null?O.errors:e.concat(O.errors),t=e.length)}else{let i={instancePath:s+"/unmix",schemaPath:"#/properties/unmix/type",keyword:"type",params:{
type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.colour!==void 0){let r=n.colour;if(Array.isArray(r)){if(r.length>3){let a={instancePath:s+"/colour",schemaPath:"\
#/properties/colour/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:s+"/colour",schemaPath:"#/pro\
perties/colour/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++)T(r[a],{instancePath:s+"/colour/"+
a,parentData:r,parentDataProperty:a,rootData:o})||(e=e===null?T.errors:e.concat(T.errors),t=e.length)}else{let i={instancePath:s+"/colour",schemaPath:"#/propert\
ies/colour/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
object"}};e===null?e=[r]:e.push(r),t++}return P.errors=e,t===0}var ie={type:"object",additionalProperties:!1,properties:{exposure:{type:"number",minimum:-10,maximum:10},
filtration:{$ref:"#/definitions/filtration"},contrast:{type:["number","string"],minimum:.2,maximum:5,pattern:"^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-\
1|[0-5]))$"},toe:{type:"number",minimum:-1,maximum:1},shoulder:{type:"number",minimum:-1,maximum:1},black:{type:"number",minimum:0,maximum:30},saturation:{type:"\
number",minimum:0,maximum:3},toning:{$ref:"#/definitions/toning"},curve:{type:"array",maxItems:64,items:{type:"array",minItems:2,maxItems:2,items:[{type:"number",
minimum:0,maximum:100},{type:"number",minimum:0,maximum:100}]}},local:{type:"array",maxItems:64,items:{$ref:"#/definitions/localArea"}}}};function F(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r===
"cyan"||r==="magenta"||r==="yellow")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===
null?e=[i]:e.push(i),t++}if(n.cyan!==void 0){let r=n.cyan;if(typeof r=="number"&&isFinite(r)){if(r>200||isNaN(r)){let i={instancePath:s+"/cyan",schemaPath:"#/pr\
operties/cyan/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:s+"/cyan",schemaPath:"\
#/properties/cyan/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/cyan",schemaPath:"#\
/properties/cyan/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.magenta!==void 0){let r=n.magenta;if(typeof r=="number"&&isFinite(
r)){if(r>200||isNaN(r)){let i={instancePath:s+"/magenta",schemaPath:"#/properties/magenta/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?
e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:s+"/magenta",schemaPath:"#/properties/magenta/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/magenta",schemaPath:"#/properties/magenta/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:
e.push(i),t++}}if(n.yellow!==void 0){let r=n.yellow;if(typeof r=="number"&&isFinite(r)){if(r>200||isNaN(r)){let i={instancePath:s+"/yellow",schemaPath:"#/proper\
ties/yellow/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:s+"/yellow",schemaPath:"\
#/properties/yellow/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/yellow",schemaPath:"\
#/properties/yellow/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}return F.errors=e,t===0}function M(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r===
"shadows"||r==="highlights"||r==="paper")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(n.shadows!==void 0){let r=n.shadows;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!(i==="hue"||i==="strength")){
let a={instancePath:s+"/shadows",schemaPath:"#/properties/shadows/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=
[a]:e.push(a),t++}if(r.hue!==void 0){let i=r.hue;if(typeof i=="number"&&isFinite(i)){if(i>360||isNaN(i)){let a={instancePath:s+"/shadows/hue",schemaPath:"#/prop\
erties/shadows/properties/hue/maximum",keyword:"maximum",params:{comparison:"<=",limit:360}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+
"/shadows/hue",schemaPath:"#/properties/shadows/properties/hue/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={
instancePath:s+"/shadows/hue",schemaPath:"#/properties/shadows/properties/hue/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}if(r.strength!==
void 0){let i=r.strength;if(typeof i=="number"&&isFinite(i)){if(i>60||isNaN(i)){let a={instancePath:s+"/shadows/strength",schemaPath:"#/properties/shadows/prope\
rties/strength/maximum",keyword:"maximum",params:{comparison:"<=",limit:60}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/shadows/stre\
ngth",schemaPath:"#/properties/shadows/properties/strength/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={
instancePath:s+"/shadows/strength",schemaPath:"#/properties/shadows/properties/strength/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{
let i={instancePath:s+"/shadows",schemaPath:"#/properties/shadows/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}if(n.highlights!==void 0){
let r=n.highlights;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!(i==="hue"||i==="strength")){let a={instancePath:s+"/highlights",schemaPath:"\
#/properties/highlights/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),t++}if(r.hue!==void 0){let i=r.
hue;if(typeof i=="number"&&isFinite(i)){if(i>360||isNaN(i)){let a={instancePath:s+"/highlights/hue",schemaPath:"#/properties/highlights/properties/hue/maximum",
keyword:"maximum",params:{comparison:"<=",limit:360}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/highlights/hue",schemaPath:"#/prope\
rties/highlights/properties/hue/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/highligh\
ts/hue",schemaPath:"#/properties/highlights/properties/hue/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}if(r.strength!==void 0){let i=r.
strength;if(typeof i=="number"&&isFinite(i)){if(i>60||isNaN(i)){let a={instancePath:s+"/highlights/strength",schemaPath:"#/properties/highlights/properties/stre\
ngth/maximum",keyword:"maximum",params:{comparison:"<=",limit:60}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/highlights/strength",schemaPath:"\
#/properties/highlights/properties/strength/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+
"/highlights/strength",schemaPath:"#/properties/highlights/properties/strength/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{
let i={instancePath:s+"/highlights",schemaPath:"#/properties/highlights/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}if(n.paper!==
void 0){let r=n.paper;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!(i==="hue"||i==="strength")){let a={instancePath:s+"/paper",schemaPath:"#/\
properties/paper/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),t++}if(r.hue!==void 0){let i=r.hue;
if(typeof i=="number"&&isFinite(i)){if(i>360||isNaN(i)){let a={instancePath:s+"/paper/hue",schemaPath:"#/properties/paper/properties/hue/maximum",keyword:"maxim\
um",params:{comparison:"<=",limit:360}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/paper/hue",schemaPath:"#/properties/paper/propert\
ies/hue/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/paper/hue",schemaPath:"#/propert\
ies/paper/properties/hue/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}if(r.strength!==void 0){let i=r.strength;if(typeof i=="numbe\
r"&&isFinite(i)){if(i>30||isNaN(i)){let a={instancePath:s+"/paper/strength",schemaPath:"#/properties/paper/properties/strength/maximum",keyword:"maximum",params:{
comparison:"<=",limit:30}};e===null?e=[a]:e.push(a),t++}if(i<0||isNaN(i)){let a={instancePath:s+"/paper/strength",schemaPath:"#/properties/paper/properties/stre\
ngth/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/paper/strength",schemaPath:"#/prope\
rties/paper/properties/strength/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{let i={instancePath:s+"/paper",schemaPath:"#/pr\
operties/paper/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}return M.errors=e,t===0}var ge={type:"object",additionalProperties:!1,properties:{id:{type:"string",pattern:"^[A-Za\
-z0-9][A-Za-z0-9_-]{0,31}$"},name:{type:"string",minLength:1,maxLength:60},line:{type:"array",minItems:2,maxItems:2,items:{$ref:"#/definitions/localPoint"}},oval:{
type:"array",minItems:4,maxItems:4,items:[{type:"number",minimum:-1,maximum:2},{type:"number",minimum:-1,maximum:2},{type:"number",minimum:.002,maximum:2},{type:"\
number",minimum:.002,maximum:2}]},polygon:{type:"array",minItems:3,maxItems:64,items:{$ref:"#/definitions/localPoint"}},turn:{type:"number",minimum:-180,maximum:180},
feather:{type:"number",minimum:0,maximum:1},exposure:{type:"number",minimum:-5,maximum:5},filtration:{$ref:"#/definitions/filtration"},contrast:{type:"number",minimum:.25,
maximum:4}}},xe=new RegExp("^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$","u");function b(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>2){let i={instancePath:s,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[i]:e.push(i),t++}if(n.length<2){let i={instancePath:s,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:2}};e===null?e=[i]:e.push(i),t++}let r=n.length;if(r>0){let i=n[0];if(typeof i=="number"&&isFinite(i)){if(i>2||isNaN(i)){let a={instancePath:s+"/0",schemaPath:"\
#/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[a]:e.push(a),t++}if(i<-1||isNaN(i)){let a={instancePath:s+"/0",schemaPath:"#/\
items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/0",schemaPath:"#/items/0/type",
keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}if(r>1){let i=n[1];if(typeof i=="number"&&isFinite(i)){if(i>2||isNaN(i)){let a={instancePath:s+
"/1",schemaPath:"#/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[a]:e.push(a),t++}if(i<-1||isNaN(i)){let a={instancePath:s+"/\
1",schemaPath:"#/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:s+"/1",schemaPath:"\
#/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[r]:e.push(r),t++}return b.errors=e,t===0}function B(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;
if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!w.call(ge.properties,r)){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"addi\
tionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.id!==void 0){let r=n.id;if(typeof r=="string"){if(!xe.test(r)){let i={instancePath:s+
"/id",schemaPath:"#/properties/id/pattern",keyword:"pattern",params:{pattern:"^[A-Za-z0-9][A-Za-z0-9_-]{0,31}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+
"/id",schemaPath:"#/properties/id/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.name!==void 0){let r=n.name;if(typeof r=="stri\
ng"){if(y(r)>60){let i={instancePath:s+"/name",schemaPath:"#/properties/name/maxLength",keyword:"maxLength",params:{limit:60}};e===null?e=[i]:e.push(i),t++}if(y(
r)<1){let i={instancePath:s+"/name",schemaPath:"#/properties/name/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+
"/name",schemaPath:"#/properties/name/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.line!==void 0){let r=n.line;if(Array.isArray(
r)){if(r.length>2){let a={instancePath:s+"/line",schemaPath:"#/properties/line/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}if(r.
length<2){let a={instancePath:s+"/line",schemaPath:"#/properties/line/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;
for(let a=0;a<i;a++)b(r[a],{instancePath:s+"/line/"+a,parentData:r,parentDataProperty:a,rootData:o})||(e=e===null?b.errors:e.concat(b.errors),t=e.length)}else{let i={
instancePath:s+"/line",schemaPath:"#/properties/line/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.oval!==void 0){let r=n.oval;
if(Array.isArray(r)){if(r.length>4){let a={instancePath:s+"/oval",schemaPath:"#/properties/oval/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[a]:e.
push(a),t++}if(r.length<4){let a={instancePath:s+"/oval",schemaPath:"#/properties/oval/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[a]:e.push(a),t++}
let i=r.length;if(i>0){let a=r[0];if(typeof a=="number"&&isFinite(a)){if(a>2||isNaN(a)){let m={instancePath:s+"/oval/0",schemaPath:"#/properties/oval/items/0/ma\
ximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.push(m),t++}if(a<-1||isNaN(a)){let m={instancePath:s+"/oval/0",schemaPath:"#/propert\
ies/oval/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/0",schemaPath:"#/\
properties/oval/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>1){let a=r[1];if(typeof a=="number"&&isFinite(a)){if(a>2||
isNaN(a)){let m={instancePath:s+"/oval/1",schemaPath:"#/properties/oval/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.push(
m),t++}if(a<-1||isNaN(a)){let m={instancePath:s+"/oval/1",schemaPath:"#/properties/oval/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===
null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/1",schemaPath:"#/properties/oval/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:
e.push(m),t++}}if(i>2){let a=r[2];if(typeof a=="number"&&isFinite(a)){if(a>2||isNaN(a)){let m={instancePath:s+"/oval/2",schemaPath:"#/properties/oval/items/2/ma\
ximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.push(m),t++}if(a<.002||isNaN(a)){let m={instancePath:s+"/oval/2",schemaPath:"#/prope\
rties/oval/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:.002}};e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/2",schemaPath:"\
#/properties/oval/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[m]:e.push(m),t++}}if(i>3){let a=r[3];if(typeof a=="number"&&isFinite(a)){if(a>
2||isNaN(a)){let m={instancePath:s+"/oval/3",schemaPath:"#/properties/oval/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[m]:e.
push(m),t++}if(a<.002||isNaN(a)){let m={instancePath:s+"/oval/3",schemaPath:"#/properties/oval/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:.002}};
e===null?e=[m]:e.push(m),t++}}else{let m={instancePath:s+"/oval/3",schemaPath:"#/properties/oval/items/3/type",keyword:"type",params:{type:"number"}};e===null?e=
[m]:e.push(m),t++}}}else{let i={instancePath:s+"/oval",schemaPath:"#/properties/oval/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.
polygon!==void 0){let r=n.polygon;if(Array.isArray(r)){if(r.length>64){let a={instancePath:s+"/polygon",schemaPath:"#/properties/polygon/maxItems",keyword:"maxI\
tems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}if(r.length<3){let a={instancePath:s+"/polygon",schemaPath:"#/properties/polygon/minItems",keyword:"minIte\
ms",params:{limit:3}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++)b(r[a],{instancePath:s+"/polygon/"+a,parentData:r,parentDataProperty:a,rootData:o})||
(e=e===null?b.errors:e.concat(b.errors),t=e.length)}else{let i={instancePath:s+"/polygon",schemaPath:"#/properties/polygon/type",keyword:"type",params:{type:"ar\
ray"}};e===null?e=[i]:e.push(i),t++}}if(n.turn!==void 0){let r=n.turn;if(typeof r=="number"&&isFinite(r)){if(r>180||isNaN(r)){let i={instancePath:s+"/turn",schemaPath:"\
#/properties/turn/maximum",keyword:"maximum",params:{comparison:"<=",limit:180}};e===null?e=[i]:e.push(i),t++}if(r<-180||isNaN(r)){let i={instancePath:s+"/turn",
schemaPath:"#/properties/turn/minimum",keyword:"minimum",params:{comparison:">=",limit:-180}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/turn",schemaPath:"\
#/properties/turn/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.feather!==void 0){let r=n.feather;if(typeof r=="number"&&isFinite(
r)){if(r>1||isNaN(r)){let i={instancePath:s+"/feather",schemaPath:"#/properties/feather/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=
[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+"/feather",schemaPath:"#/properties/feather/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/feather",schemaPath:"#/properties/feather/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:
e.push(i),t++}}if(n.exposure!==void 0){let r=n.exposure;if(typeof r=="number"&&isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:s+"/exposure",schemaPath:"#/pr\
operties/exposure/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[i]:e.push(i),t++}if(r<-5||isNaN(r)){let i={instancePath:s+"/exposure",
schemaPath:"#/properties/exposure/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/expos\
ure",schemaPath:"#/properties/exposure/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.filtration!==void 0&&(F(n.filtration,{instancePath:s+
"/filtration",parentData:n,parentDataProperty:"filtration",rootData:o})||(e=e===null?F.errors:e.concat(F.errors),t=e.length)),n.contrast!==void 0){let r=n.contrast;
if(typeof r=="number"&&isFinite(r)){if(r>4||isNaN(r)){let i={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:4}};e===null?e=[i]:e.push(i),t++}if(r<.25||isNaN(r)){let i={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/minimum",keyword:"minimum",params:{
comparison:">=",limit:.25}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/type",keyword:"type",params:{
type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}
return B.errors=e,t===0}var we=new RegExp("^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-1|[0-5]))$","u");function g(n,{instancePath:s="",parentData:h,parentDataProperty:f,
rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!w.call(ie.properties,r)){let i={instancePath:s,schemaPath:"#/ad\
ditionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.exposure!==void 0){let r=n.exposure;if(typeof r==
"number"&&isFinite(r)){if(r>10||isNaN(r)){let i={instancePath:s+"/exposure",schemaPath:"#/properties/exposure/maximum",keyword:"maximum",params:{comparison:"<=",
limit:10}};e===null?e=[i]:e.push(i),t++}if(r<-10||isNaN(r)){let i={instancePath:s+"/exposure",schemaPath:"#/properties/exposure/minimum",keyword:"minimum",params:{
comparison:">=",limit:-10}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/exposure",schemaPath:"#/properties/exposure/type",keyword:"type",params:{
type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.filtration!==void 0&&(F(n.filtration,{instancePath:s+"/filtration",parentData:n,parentDataProperty:"filtratio\
n",rootData:o})||(e=e===null?F.errors:e.concat(F.errors),t=e.length)),n.contrast!==void 0){let r=n.contrast;if(!(typeof r=="number"&&isFinite(r))&&typeof r!="st\
ring"){let i={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/type",keyword:"type",params:{type:ie.properties.contrast.type}};e===null?e=[i]:e.push(
i),t++}if(typeof r=="number"&&isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/maximum",keyword:"maximum",params:{
comparison:"<=",limit:5}};e===null?e=[i]:e.push(i),t++}if(r<.2||isNaN(r)){let i={instancePath:s+"/contrast",schemaPath:"#/properties/contrast/minimum",keyword:"\
minimum",params:{comparison:">=",limit:.2}};e===null?e=[i]:e.push(i),t++}}if(typeof r=="string"&&!we.test(r)){let i={instancePath:s+"/contrast",schemaPath:"#/pr\
operties/contrast/pattern",keyword:"pattern",params:{pattern:"^(R([4-9][0-9]|1[0-9]{2}|2[0-4][0-9]|250)|grade (-1|[0-5]))$"}};e===null?e=[i]:e.push(i),t++}}if(n.
toe!==void 0){let r=n.toe;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:s+"/toe",schemaPath:"#/properties/toe/maximum",keyword:"maxi\
mum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<-1||isNaN(r)){let i={instancePath:s+"/toe",schemaPath:"#/properties/toe/minimum",keyword:"\
minimum",params:{comparison:">=",limit:-1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/toe",schemaPath:"#/properties/toe/type",keyword:"type",params:{
type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.shoulder!==void 0){let r=n.shoulder;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:s+
"/shoulder",schemaPath:"#/properties/shoulder/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<-1||isNaN(r)){let i={
instancePath:s+"/shoulder",schemaPath:"#/properties/shoulder/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:s+"/shoulder",schemaPath:"#/properties/shoulder/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.black!==void 0){let r=n.
black;if(typeof r=="number"&&isFinite(r)){if(r>30||isNaN(r)){let i={instancePath:s+"/black",schemaPath:"#/properties/black/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:30}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+"/black",schemaPath:"#/properties/black/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/black",schemaPath:"#/properties/black/type",keyword:"type",params:{type:"number"}};e===
null?e=[i]:e.push(i),t++}}if(n.saturation!==void 0){let r=n.saturation;if(typeof r=="number"&&isFinite(r)){if(r>3||isNaN(r)){let i={instancePath:s+"/saturation",
schemaPath:"#/properties/saturation/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+
"/saturation",schemaPath:"#/properties/saturation/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+
"/saturation",schemaPath:"#/properties/saturation/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.toning!==void 0&&(M(n.toning,{
instancePath:s+"/toning",parentData:n,parentDataProperty:"toning",rootData:o})||(e=e===null?M.errors:e.concat(M.errors),t=e.length)),n.curve!==void 0){let r=n.curve;
if(Array.isArray(r)){if(r.length>64){let a={instancePath:s+"/curve",schemaPath:"#/properties/curve/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[a]:
e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(Array.isArray(m)){if(m.length>2){let l={instancePath:s+"/curve/"+a,schemaPath:"#/properties/curv\
e/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[l]:e.push(l),t++}if(m.length<2){let l={instancePath:s+"/curve/"+a,schemaPath:"#/properties/cu\
rve/items/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[l]:e.push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>
100||isNaN(l)){let u={instancePath:s+"/curve/"+a+"/0",schemaPath:"#/properties/curve/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};
e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:s+"/curve/"+a+"/0",schemaPath:"#/properties/curve/items/items/0/minimum",keyword:"minimum",params:{
comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/curve/"+a+"/0",schemaPath:"#/properties/curve/items/items/0/type",keyword:"\
type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];if(typeof l=="number"&&isFinite(l)){if(l>100||isNaN(l)){let u={instancePath:s+"/c\
urve/"+a+"/1",schemaPath:"#/properties/curve/items/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(
l)){let u={instancePath:s+"/curve/"+a+"/1",schemaPath:"#/properties/curve/items/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=
[u]:e.push(u),t++}}else{let u={instancePath:s+"/curve/"+a+"/1",schemaPath:"#/properties/curve/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?
e=[u]:e.push(u),t++}}}else{let p={instancePath:s+"/curve/"+a,schemaPath:"#/properties/curve/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(
p),t++}}}else{let i={instancePath:s+"/curve",schemaPath:"#/properties/curve/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.local!==
void 0){let r=n.local;if(Array.isArray(r)){if(r.length>64){let a={instancePath:s+"/local",schemaPath:"#/properties/local/maxItems",keyword:"maxItems",params:{limit:64}};
e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++)B(r[a],{instancePath:s+"/local/"+a,parentData:r,parentDataProperty:a,rootData:o})||(e=e===null?B.
errors:e.concat(B.errors),t=e.length)}else{let i={instancePath:s+"/local",schemaPath:"#/properties/local/type",keyword:"type",params:{type:"array"}};e===null?e=
[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return g.errors=e,t===0}var q={type:"object",additionalProperties:!1,required:["name","type"],properties:{name:{type:"string",pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"},type:{enum:[
"tiff","jpeg","png","webp","avif"]},file:{type:"string",maxLength:120,pattern:'^(?:[^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\\
})+$'},depth:{enum:[8,16]},quality:{type:"integer",minimum:1,maximum:100},space:{enum:["srgb","p3","adobe","romm"]},long:{type:"integer",minimum:16,maximum:6e4},
sharpen:{type:"number",minimum:0,maximum:1},compression:{enum:["none","deflate"]},print:{$ref:"#/definitions/print"}}},ke=new RegExp("^[A-Za-z0-9][A-Za-z0-9 _.-\
]{0,62}$","u"),be=new RegExp('^(?:[^{}\\\\/:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\})+$',"u"),E={type:"object",additionalProperties:!1,
required:["paper"],properties:{paper:{type:["string","array"],items:{type:"number",minimum:30,maximum:3e3},minItems:2,maxItems:2,pattern:"^(?:A6|A5|A4|A3|A2|9x1\
3cm|10x15cm|13x18cm|18x24cm|24x30cm|30x40cm|40x50cm|50x60cm|4x6in|5x7in|8x10in|8x12in|8\\.5x11in|11x14in|11x17in|12x16in|16x20in|20x24in)$",examples:["A6","A5",
"A4","A3","A2","9x13cm","10x15cm","13x18cm","18x24cm","24x30cm","30x40cm","40x50cm","50x60cm","4x6in","5x7in","8x10in","8x12in","8.5x11in","11x14in","11x17in","\
12x16in","16x20in","20x24in"]},orientation:{enum:["picture","portrait","landscape"]},border:{type:["number","array"],minimum:0,maximum:500,items:{type:"number",
minimum:0,maximum:500},minItems:4,maxItems:4},fit:{enum:["whole","fill"]},length:{type:"number",minimum:10,maximum:3e3},place:{type:"array",minItems:2,maxItems:2,
items:{type:"number",minimum:0,maximum:1}},resolution:{type:"integer",minimum:72,maximum:1440},profile:{type:"string",minLength:1},intent:{enum:["perceptual","r\
elative-colorimetric","saturation","absolute-colorimetric"]},blackPointCompensation:{type:"boolean"}}},Ne=new RegExp("^(?:A6|A5|A4|A3|A2|9x13cm|10x15cm|13x18cm|\
18x24cm|24x30cm|30x40cm|40x50cm|50x60cm|4x6in|5x7in|8x10in|8x12in|8\\.5x11in|11x14in|11x17in|12x16in|16x20in|20x24in)$","u");function G(n,{instancePath:s="",parentData:h,
parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){if(n.paper===void 0){let r={instancePath:s,schemaPath:"#/requ\
ired",keyword:"required",params:{missingProperty:"paper"}};e===null?e=[r]:e.push(r),t++}for(let r in n)if(!w.call(E.properties,r)){let i={instancePath:s,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.paper!==void 0){let r=n.paper;if(typeof r!=
"string"&&!Array.isArray(r)){let i={instancePath:s+"/paper",schemaPath:"#/properties/paper/type",keyword:"type",params:{type:E.properties.paper.type}};e===null?
e=[i]:e.push(i),t++}if(typeof r=="string"&&!Ne.test(r)){let i={instancePath:s+"/paper",schemaPath:"#/properties/paper/pattern",keyword:"pattern",params:{pattern:"\
^(?:A6|A5|A4|A3|A2|9x13cm|10x15cm|13x18cm|18x24cm|24x30cm|30x40cm|40x50cm|50x60cm|4x6in|5x7in|8x10in|8x12in|8\\.5x11in|11x14in|11x17in|12x16in|16x20in|20x24in)$"}};
e===null?e=[i]:e.push(i),t++}if(Array.isArray(r)){if(r.length>2){let a={instancePath:s+"/paper",schemaPath:"#/properties/paper/maxItems",keyword:"maxItems",params:{
limit:2}};e===null?e=[a]:e.push(a),t++}if(r.length<2){let a={instancePath:s+"/paper",schemaPath:"#/properties/paper/minItems",keyword:"minItems",params:{limit:2}};
e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>3e3||isNaN(m)){let p={instancePath:s+"/pape\
r/"+a,schemaPath:"#/properties/paper/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:3e3}};e===null?e=[p]:e.push(p),t++}if(m<30||isNaN(m)){let p={
instancePath:s+"/paper/"+a,schemaPath:"#/properties/paper/items/minimum",keyword:"minimum",params:{comparison:">=",limit:30}};e===null?e=[p]:e.push(p),t++}}else{
let p={instancePath:s+"/paper/"+a,schemaPath:"#/properties/paper/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}if(n.orientation!==
void 0){let r=n.orientation;if(!(r==="picture"||r==="portrait"||r==="landscape")){let i={instancePath:s+"/orientation",schemaPath:"#/properties/orientation/enum",
keyword:"enum",params:{allowedValues:E.properties.orientation.enum}};e===null?e=[i]:e.push(i),t++}}if(n.border!==void 0){let r=n.border;if(!(typeof r=="number"&&
isFinite(r))&&!Array.isArray(r)){let i={instancePath:s+"/border",schemaPath:"#/properties/border/type",keyword:"type",params:{type:E.properties.border.type}};e===
null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>500||isNaN(r)){let i={instancePath:s+"/border",schemaPath:"#/properties/border/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:500}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+"/border",schemaPath:"#/properties/border/mini\
mum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>4){let a={instancePath:s+"/border",schemaPath:"\
#/properties/border/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[a]:e.push(a),t++}if(r.length<4){let a={instancePath:s+"/border",schemaPath:"#/pro\
perties/border/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&
isFinite(m)){if(m>500||isNaN(m)){let p={instancePath:s+"/border/"+a,schemaPath:"#/properties/border/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:500}};
e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={instancePath:s+"/border/"+a,schemaPath:"#/properties/border/items/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/border/"+a,schemaPath:"#/properties/border/items/type",keyword:"type",params:{type:"num\
ber"}};e===null?e=[p]:e.push(p),t++}}}}if(n.fit!==void 0){let r=n.fit;if(!(r==="whole"||r==="fill")){let i={instancePath:s+"/fit",schemaPath:"#/properties/fit/e\
num",keyword:"enum",params:{allowedValues:E.properties.fit.enum}};e===null?e=[i]:e.push(i),t++}}if(n.length!==void 0){let r=n.length;if(typeof r=="number"&&isFinite(
r)){if(r>3e3||isNaN(r)){let i={instancePath:s+"/length",schemaPath:"#/properties/length/maximum",keyword:"maximum",params:{comparison:"<=",limit:3e3}};e===null?
e=[i]:e.push(i),t++}if(r<10||isNaN(r)){let i={instancePath:s+"/length",schemaPath:"#/properties/length/minimum",keyword:"minimum",params:{comparison:">=",limit:10}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/length",schemaPath:"#/properties/length/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.
push(i),t++}}if(n.place!==void 0){let r=n.place;if(Array.isArray(r)){if(r.length>2){let a={instancePath:s+"/place",schemaPath:"#/properties/place/maxItems",keyword:"\
maxItems",params:{limit:2}};e===null?e=[a]:e.push(a),t++}if(r.length<2){let a={instancePath:s+"/place",schemaPath:"#/properties/place/minItems",keyword:"minItem\
s",params:{limit:2}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="number"&&isFinite(m)){if(m>1||isNaN(m)){let p={instancePath:s+
"/place/"+a,schemaPath:"#/properties/place/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[p]:e.push(p),t++}if(m<0||isNaN(m)){let p={
instancePath:s+"/place/"+a,schemaPath:"#/properties/place/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{
let p={instancePath:s+"/place/"+a,schemaPath:"#/properties/place/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+
"/place",schemaPath:"#/properties/place/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.resolution!==void 0){let r=n.resolution;if(!(typeof r==
"number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:s+"/resolution",schemaPath:"#/properties/resolution/type",keyword:"type",params:{type:"integer"}};
e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>1440||isNaN(r)){let i={instancePath:s+"/resolution",schemaPath:"#/properties/resolution/ma\
ximum",keyword:"maximum",params:{comparison:"<=",limit:1440}};e===null?e=[i]:e.push(i),t++}if(r<72||isNaN(r)){let i={instancePath:s+"/resolution",schemaPath:"#/\
properties/resolution/minimum",keyword:"minimum",params:{comparison:">=",limit:72}};e===null?e=[i]:e.push(i),t++}}}if(n.profile!==void 0){let r=n.profile;if(typeof r==
"string"){if(y(r)<1){let i={instancePath:s+"/profile",schemaPath:"#/properties/profile/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),
t++}}else{let i={instancePath:s+"/profile",schemaPath:"#/properties/profile/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.intent!==
void 0){let r=n.intent;if(!(r==="perceptual"||r==="relative-colorimetric"||r==="saturation"||r==="absolute-colorimetric")){let i={instancePath:s+"/intent",schemaPath:"\
#/properties/intent/enum",keyword:"enum",params:{allowedValues:E.properties.intent.enum}};e===null?e=[i]:e.push(i),t++}}if(n.blackPointCompensation!==void 0&&typeof n.
blackPointCompensation!="boolean"){let r={instancePath:s+"/blackPointCompensation",schemaPath:"#/properties/blackPointCompensation/type",keyword:"type",params:{
type:"boolean"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}
return G.errors=e,t===0}function J(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(
n)){if(n.name===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"name"}};e===null?e=[r]:e.push(r),t++}if(n.type===
void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"type"}};e===null?e=[r]:e.push(r),t++}for(let r in n)if(!w.call(
q.properties,r)){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),
t++}if(n.name!==void 0){let r=n.name;if(typeof r=="string"){if(!ke.test(r)){let i={instancePath:s+"/name",schemaPath:"#/properties/name/pattern",keyword:"patter\
n",params:{pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/name",schemaPath:"#/properties/name/type",keyword:"\
type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.type!==void 0){let r=n.type;if(!(r==="tiff"||r==="jpeg"||r==="png"||r==="webp"||r==="avif")){let i={
instancePath:s+"/type",schemaPath:"#/properties/type/enum",keyword:"enum",params:{allowedValues:q.properties.type.enum}};e===null?e=[i]:e.push(i),t++}}if(n.file!==
void 0){let r=n.file;if(typeof r=="string"){if(y(r)>120){let i={instancePath:s+"/file",schemaPath:"#/properties/file/maxLength",keyword:"maxLength",params:{limit:120}};
e===null?e=[i]:e.push(i),t++}if(!be.test(r)){let i={instancePath:s+"/file",schemaPath:"#/properties/file/pattern",keyword:"pattern",params:{pattern:'^(?:[^{}\\\\/\
:*?"<>|\\u0000-\\u001f\\u007f-\\u009f]|\\{(?:roll|frame|title|scan|output)\\})+$'}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/file",schemaPath:"\
#/properties/file/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.depth!==void 0){let r=n.depth;if(!(r===8||r===16)){let i={instancePath:s+
"/depth",schemaPath:"#/properties/depth/enum",keyword:"enum",params:{allowedValues:q.properties.depth.enum}};e===null?e=[i]:e.push(i),t++}}if(n.quality!==void 0){
let r=n.quality;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:s+"/quality",schemaPath:"#/properties/quality/type",keyword:"type",
params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>100||isNaN(r)){let i={instancePath:s+"/quality",schemaPath:"#/pro\
perties/quality/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[i]:e.push(i),t++}if(r<1||isNaN(r)){let i={instancePath:s+"/quality",schemaPath:"\
#/properties/quality/minimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===null?e=[i]:e.push(i),t++}}}if(n.space!==void 0){let r=n.space;if(!(r==="sr\
gb"||r==="p3"||r==="adobe"||r==="romm")){let i={instancePath:s+"/space",schemaPath:"#/properties/space/enum",keyword:"enum",params:{allowedValues:q.properties.space.
enum}};e===null?e=[i]:e.push(i),t++}}if(n.long!==void 0){let r=n.long;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:s+"/long",schemaPath:"\
#/properties/long/type",keyword:"type",params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>6e4||isNaN(r)){let i={instancePath:s+
"/long",schemaPath:"#/properties/long/maximum",keyword:"maximum",params:{comparison:"<=",limit:6e4}};e===null?e=[i]:e.push(i),t++}if(r<16||isNaN(r)){let i={instancePath:s+
"/long",schemaPath:"#/properties/long/minimum",keyword:"minimum",params:{comparison:">=",limit:16}};e===null?e=[i]:e.push(i),t++}}}if(n.sharpen!==void 0){let r=n.
sharpen;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:s+"/sharpen",schemaPath:"#/properties/sharpen/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+"/sharpen",schemaPath:"#/properties/sharpen/minimum",keyword:"min\
imum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/sharpen",schemaPath:"#/properties/sharpen/type",keyword:"type",
params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.compression!==void 0){let r=n.compression;if(!(r==="none"||r==="deflate")){let i={instancePath:s+"/co\
mpression",schemaPath:"#/properties/compression/enum",keyword:"enum",params:{allowedValues:q.properties.compression.enum}};e===null?e=[i]:e.push(i),t++}}n.print!==
void 0&&(G(n.print,{instancePath:s+"/print",parentData:n,parentDataProperty:"print",rootData:o})||(e=e===null?G.errors:e.concat(G.errors),t=e.length))}else{let r={
instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return J.errors=e,t===0}function L(n,{instancePath:s="",parentData:h,
parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(Array.isArray(n)){if(n.length>32){let i={instancePath:s,schemaPath:"#/maxItems",keyword:"maxItems",params:{
limit:32}};e===null?e=[i]:e.push(i),t++}let r=n.length;for(let i=0;i<r;i++)J(n[i],{instancePath:s+"/"+i,parentData:n,parentDataProperty:i,rootData:o})||(e=e===null?
J.errors:e.concat(J.errors),t=e.length)}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}return L.
errors=e,t===0}var z={type:"object",additionalProperties:!1,properties:{scan:{type:"string",minLength:1},scans:{type:"array",minItems:1,maxItems:64,items:{type:"\
string",minLength:1}},exposures:{type:"array",minItems:1,maxItems:16,items:{type:"string",minLength:1}},unused:{type:"array",minItems:1,maxItems:64,items:{type:"\
string",minLength:1}},join:{type:"array",minItems:1,maxItems:64,items:{type:"array",minItems:3,maxItems:3,items:[{type:"number",minimum:-2e5,maximum:2e5},{type:"\
number",minimum:-2e5,maximum:2e5},{type:"number",minimum:-45,maximum:45}]}},area:{$ref:"#/definitions/frameArea"},turn:{enum:[0,90,180,270]},mirror:{type:"boole\
an"},skip:{type:"boolean"},choice:{enum:["keep","reject"]},rank:{enum:[1,2,3,4,5]},light:{$ref:"#/definitions/light"},negative:{$ref:"#/definitions/negative"},positive:{
$ref:"#/definitions/positive"},spots:{$ref:"#/definitions/spots"},title:{type:"string",maxLength:200},exposed:{$ref:"#/definitions/exposed"},iptc:{$ref:"#/defin\
itions/iptc"},note:{$ref:"#/definitions/note"}}};function K(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!(r===
"left"||r==="top"||r==="width"||r==="height"||r==="tilt")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(n.left!==void 0){let r=n.left;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:s+"/left",schemaPath:"#/\
properties/left/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:s+"/left",schemaPath:"\
#/properties/left/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/left",schemaPath:"#/pr\
operties/left/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.top!==void 0){let r=n.top;if(typeof r=="number"&&isFinite(r)){if(r>
1||isNaN(r)){let i={instancePath:s+"/top",schemaPath:"#/properties/top/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}
if(r<0||isNaN(r)){let i={instancePath:s+"/top",schemaPath:"#/properties/top/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),
t++}}else{let i={instancePath:s+"/top",schemaPath:"#/properties/top/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.width!==void 0){
let r=n.width;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:s+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<.001||isNaN(r)){let i={instancePath:s+"/width",schemaPath:"#/properties/width/minimum",keyword:"mini\
mum",params:{comparison:">=",limit:.001}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/width",schemaPath:"#/properties/width/type",keyword:"type",
params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.height!==void 0){let r=n.height;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:s+
"/height",schemaPath:"#/properties/height/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<.001||isNaN(r)){let i={
instancePath:s+"/height",schemaPath:"#/properties/height/minimum",keyword:"minimum",params:{comparison:">=",limit:.001}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:s+"/height",schemaPath:"#/properties/height/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.tilt!==void 0){let r=n.
tilt;if(typeof r=="number"&&isFinite(r)){if(r>45||isNaN(r)){let i={instancePath:s+"/tilt",schemaPath:"#/properties/tilt/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:45}};e===null?e=[i]:e.push(i),t++}if(r<-45||isNaN(r)){let i={instancePath:s+"/tilt",schemaPath:"#/properties/tilt/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-45}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/tilt",schemaPath:"#/properties/tilt/type",keyword:"type",params:{type:"number"}};e===
null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return K.errors=e,
t===0}function x(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(typeof n=="string"){if(y(n)>2e4){let r={instancePath:s,schemaPath:"\
#/maxLength",keyword:"maxLength",params:{limit:2e4}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"s\
tring"}};e===null?e=[r]:e.push(r),t++}return x.errors=e,t===0}function Q(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;
if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)if(!w.call(z.properties,r)){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"addit\
ionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.scan!==void 0){let r=n.scan;if(typeof r=="string"){if(y(r)<1){let i={instancePath:s+
"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/scan",schemaPath:"\
#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.scans!==void 0){let r=n.scans;if(Array.isArray(r)){if(r.length>
64){let a={instancePath:s+"/scans",schemaPath:"#/properties/scans/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={
instancePath:s+"/scans",schemaPath:"#/properties/scans/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<
i;a++){let m=r[a];if(typeof m=="string"){if(y(m)<1){let p={instancePath:s+"/scans/"+a,schemaPath:"#/properties/scans/items/minLength",keyword:"minLength",params:{
limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/scans/"+a,schemaPath:"#/properties/scans/items/type",keyword:"type",params:{type:"string"}};
e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(
i),t++}}if(n.exposures!==void 0){let r=n.exposures;if(Array.isArray(r)){if(r.length>16){let a={instancePath:s+"/exposures",schemaPath:"#/properties/exposures/ma\
xItems",keyword:"maxItems",params:{limit:16}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={instancePath:s+"/exposures",schemaPath:"#/properties/exposures/\
minItems",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="string"){if(y(m)<1){let p={
instancePath:s+"/exposures/"+a,schemaPath:"#/properties/exposures/items/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={
instancePath:s+"/exposures/"+a,schemaPath:"#/properties/exposures/items/type",keyword:"type",params:{type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let i={
instancePath:s+"/exposures",schemaPath:"#/properties/exposures/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.unused!==void 0){let r=n.
unused;if(Array.isArray(r)){if(r.length>64){let a={instancePath:s+"/unused",schemaPath:"#/properties/unused/maxItems",keyword:"maxItems",params:{limit:64}};e===
null?e=[a]:e.push(a),t++}if(r.length<1){let a={instancePath:s+"/unused",schemaPath:"#/properties/unused/minItems",keyword:"minItems",params:{limit:1}};e===null?
e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(typeof m=="string"){if(y(m)<1){let p={instancePath:s+"/unused/"+a,schemaPath:"#/properties\
/unused/items/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:s+"/unused/"+a,schemaPath:"#/properties/un\
used/items/type",keyword:"type",params:{type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/unused",schemaPath:"#/properties/unused/type",
keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(n.join!==void 0){let r=n.join;if(Array.isArray(r)){if(r.length>64){let a={instancePath:s+
"/join",schemaPath:"#/properties/join/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[a]:e.push(a),t++}if(r.length<1){let a={instancePath:s+"/join",
schemaPath:"#/properties/join/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[a]:e.push(a),t++}let i=r.length;for(let a=0;a<i;a++){let m=r[a];if(Array.
isArray(m)){if(m.length>3){let l={instancePath:s+"/join/"+a,schemaPath:"#/properties/join/items/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[l]:e.
push(l),t++}if(m.length<3){let l={instancePath:s+"/join/"+a,schemaPath:"#/properties/join/items/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[l]:e.
push(l),t++}let p=m.length;if(p>0){let l=m[0];if(typeof l=="number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:s+"/join/"+a+"/0",schemaPath:"#/proper\
ties/join/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:s+"\
/join/"+a+"/0",schemaPath:"#/properties/join/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:s+"/join/"+a+"/0",schemaPath:"#/properties/join/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=m[1];
if(typeof l=="number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:s+"/join/"+a+"/1",schemaPath:"#/properties/join/items/items/1/maximum",keyword:"maxi\
mum",params:{comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:s+"/join/"+a+"/1",schemaPath:"#/properties/join/i\
tems/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/join/"+a+"/1",schemaPath:"\
#/properties/join/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>2){let l=m[2];if(typeof l=="number"&&isFinite(l)){
if(l>45||isNaN(l)){let u={instancePath:s+"/join/"+a+"/2",schemaPath:"#/properties/join/items/items/2/maximum",keyword:"maximum",params:{comparison:"<=",limit:45}};
e===null?e=[u]:e.push(u),t++}if(l<-45||isNaN(l)){let u={instancePath:s+"/join/"+a+"/2",schemaPath:"#/properties/join/items/items/2/minimum",keyword:"minimum",params:{
comparison:">=",limit:-45}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:s+"/join/"+a+"/2",schemaPath:"#/properties/join/items/items/2/type",keyword:"\
type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:s+"/join/"+a,schemaPath:"#/properties/join/items/type",keyword:"type",params:{
type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:s+"/join",schemaPath:"#/properties/join/type",keyword:"type",params:{type:"array"}};e===null?
e=[i]:e.push(i),t++}}if(n.area!==void 0&&(K(n.area,{instancePath:s+"/area",parentData:n,parentDataProperty:"area",rootData:o})||(e=e===null?K.errors:e.concat(K.
errors),t=e.length)),n.turn!==void 0){let r=n.turn;if(!(r===0||r===90||r===180||r===270)){let i={instancePath:s+"/turn",schemaPath:"#/properties/turn/enum",keyword:"\
enum",params:{allowedValues:z.properties.turn.enum}};e===null?e=[i]:e.push(i),t++}}if(n.mirror!==void 0&&typeof n.mirror!="boolean"){let r={instancePath:s+"/mir\
ror",schemaPath:"#/properties/mirror/type",keyword:"type",params:{type:"boolean"}};e===null?e=[r]:e.push(r),t++}if(n.skip!==void 0&&typeof n.skip!="boolean"){let r={
instancePath:s+"/skip",schemaPath:"#/properties/skip/type",keyword:"type",params:{type:"boolean"}};e===null?e=[r]:e.push(r),t++}if(n.choice!==void 0){let r=n.choice;
if(!(r==="keep"||r==="reject")){let i={instancePath:s+"/choice",schemaPath:"#/properties/choice/enum",keyword:"enum",params:{allowedValues:z.properties.choice.enum}};
e===null?e=[i]:e.push(i),t++}}if(n.rank!==void 0){let r=n.rank;if(!(r===1||r===2||r===3||r===4||r===5)){let i={instancePath:s+"/rank",schemaPath:"#/properties/r\
ank/enum",keyword:"enum",params:{allowedValues:z.properties.rank.enum}};e===null?e=[i]:e.push(i),t++}}if(n.light!==void 0&&($(n.light,{instancePath:s+"/light",parentData:n,
parentDataProperty:"light",rootData:o})||(e=e===null?$.errors:e.concat($.errors),t=e.length)),n.negative!==void 0&&(P(n.negative,{instancePath:s+"/negative",parentData:n,
parentDataProperty:"negative",rootData:o})||(e=e===null?P.errors:e.concat(P.errors),t=e.length)),n.positive!==void 0&&(g(n.positive,{instancePath:s+"/positive",
parentData:n,parentDataProperty:"positive",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),n.spots!==void 0&&(j(n.spots,{instancePath:s+"/spo\
ts",parentData:n,parentDataProperty:"spots",rootData:o})||(e=e===null?j.errors:e.concat(j.errors),t=e.length)),n.title!==void 0){let r=n.title;if(typeof r=="str\
ing"){if(y(r)>200){let i={instancePath:s+"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:s+"/title",schemaPath:"#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}n.exposed!==void 0&&(A(
n.exposed,{instancePath:s+"/exposed",parentData:n,parentDataProperty:"exposed",rootData:o})||(e=e===null?A.errors:e.concat(A.errors),t=e.length)),n.iptc!==void 0&&
(D(n.iptc,{instancePath:s+"/iptc",parentData:n,parentDataProperty:"iptc",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length)),n.note!==void 0&&(x(
n.note,{instancePath:s+"/note",parentData:n,parentDataProperty:"note",rootData:o})||(e=e===null?x.errors:e.concat(x.errors),t=e.length))}else{let r={instancePath:s,
schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return Q.errors=e,t===0}var ve=new RegExp("^[0-9a-f]{64}$","u");function S(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="obje\
ct"&&!Array.isArray(n)){if(n.size===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"size"}};e===null?e=[r]:e.push(
r),t++}if(n.sha256===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"sha256"}};e===null?e=[r]:e.push(r),t++}for(let r in n)
if(!(r==="size"||r==="sha256")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?
e=[i]:e.push(i),t++}if(n.size!==void 0){let r=n.size;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:s+"/size",schemaPath:"#/prope\
rties/size/type",keyword:"type",params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>9007199254740991||isNaN(r)){let i={
instancePath:s+"/size",schemaPath:"#/properties/size/maximum",keyword:"maximum",params:{comparison:"<=",limit:9007199254740991}};e===null?e=[i]:e.push(i),t++}if(r<
0||isNaN(r)){let i={instancePath:s+"/size",schemaPath:"#/properties/size/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}}
if(n.sha256!==void 0){let r=n.sha256;if(typeof r=="string"){if(!ve.test(r)){let i={instancePath:s+"/sha256",schemaPath:"#/properties/sha256/pattern",keyword:"pa\
ttern",params:{pattern:"^[0-9a-f]{64}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/sha256",schemaPath:"#/properties/sha256/type",keyword:"type",
params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(
r),t++}return S.errors=e,t===0}var Ie={type:"object",additionalProperties:!1,properties:{roll:{type:"object",additionalProperties:!1,properties:{blank:{$ref:"#/\
definitions/digest"},flare:{$ref:"#/definitions/digest"},times:{$ref:"#/definitions/digest"},base:{$ref:"#/definitions/digest"},curve:{$ref:"#/definitions/diges\
t"},filtration:{$ref:"#/definitions/digest"},contrast:{$ref:"#/definitions/digest"},toe:{$ref:"#/definitions/digest"},shoulder:{$ref:"#/definitions/digest"}}},scans:{
type:"object",additionalProperties:{type:"object",additionalProperties:!1,properties:{area:{$ref:"#/definitions/digest"},exposure:{$ref:"#/definitions/digest"},
contrast:{$ref:"#/definitions/digest"}}}}}};var Ae=new RegExp("^[b-df-hj-np-tv-z]{8}(-[b-df-hj-np-tv-z]{4})*$","u");function c(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,
t=0;if(typeof n=="string"){if(!Ae.test(n)){let r={instancePath:s,schemaPath:"#/pattern",keyword:"pattern",params:{pattern:"^[b-df-hj-np-tv-z]{8}(-[b-df-hj-np-tv\
-z]{4})*$"}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}return c.
errors=e,t===0}function U(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){for(let r in n)
if(!(r==="roll"||r==="scans")){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?
e=[i]:e.push(i),t++}if(n.roll!==void 0){let r=n.roll;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!w.call(Ie.properties.roll.properties,i)){let a={
instancePath:s+"/roll",schemaPath:"#/properties/roll/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),
t++}r.blank!==void 0&&(c(r.blank,{instancePath:s+"/roll/blank",parentData:r,parentDataProperty:"blank",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),t=e.
length)),r.flare!==void 0&&(c(r.flare,{instancePath:s+"/roll/flare",parentData:r,parentDataProperty:"flare",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),r.times!==void 0&&(c(r.times,{instancePath:s+"/roll/times",parentData:r,parentDataProperty:"times",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),r.base!==void 0&&(c(r.base,{instancePath:s+"/roll/base",parentData:r,parentDataProperty:"base",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),r.curve!==void 0&&(c(r.curve,{instancePath:s+"/roll/curve",parentData:r,parentDataProperty:"curve",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length)),r.filtration!==void 0&&(c(r.filtration,{instancePath:s+"/roll/filtration",parentData:r,parentDataProperty:"filtration",rootData:o})||(e=e===null?c.
errors:e.concat(c.errors),t=e.length)),r.contrast!==void 0&&(c(r.contrast,{instancePath:s+"/roll/contrast",parentData:r,parentDataProperty:"contrast",rootData:o})||
(e=e===null?c.errors:e.concat(c.errors),t=e.length)),r.toe!==void 0&&(c(r.toe,{instancePath:s+"/roll/toe",parentData:r,parentDataProperty:"toe",rootData:o})||(e=
e===null?c.errors:e.concat(c.errors),t=e.length)),r.shoulder!==void 0&&(c(r.shoulder,{instancePath:s+"/roll/shoulder",parentData:r,parentDataProperty:"shoulder",
rootData:o})||(e=e===null?c.errors:e.concat(c.errors),t=e.length))}else{let i={instancePath:s+"/roll",schemaPath:"#/properties/roll/type",keyword:"type",params:{
type:"object"}};e===null?e=[i]:e.push(i),t++}}if(n.scans!==void 0){let r=n.scans;if(r&&typeof r=="object"&&!Array.isArray(r))for(let i in r){let a=r[i];if(a&&typeof a==
"object"&&!Array.isArray(a)){for(let m in a)if(!(m==="area"||m==="exposure"||m==="contrast")){let p={instancePath:s+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,
"~1"),schemaPath:"#/properties/scans/additionalProperties/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:m}};e===null?e=[p]:e.push(
p),t++}a.area!==void 0&&(c(a.area,{instancePath:s+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1")+"/area",parentData:a,parentDataProperty:"area",rootData:o})||
(e=e===null?c.errors:e.concat(c.errors),t=e.length)),a.exposure!==void 0&&(c(a.exposure,{instancePath:s+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1")+"/exp\
osure",parentData:a,parentDataProperty:"exposure",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),t=e.length)),a.contrast!==void 0&&(c(a.contrast,{instancePath:s+
"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1")+"/contrast",parentData:a,parentDataProperty:"contrast",rootData:o})||(e=e===null?c.errors:e.concat(c.errors),
t=e.length))}else{let m={instancePath:s+"/scans/"+i.replace(/~/g,"~0").replace(/\//g,"~1"),schemaPath:"#/properties/scans/additionalProperties/type",keyword:"ty\
pe",params:{type:"object"}};e===null?e=[m]:e.push(m),t++}}else{let i={instancePath:s+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"\
object"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return U.
errors=e,t===0}var te=new RegExp("^[0-9]{1,3}[A-Z]?$","u");function se(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,t=0;if(n&&
typeof n=="object"&&!Array.isArray(n)){if(n.version===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"version"}};
e===null?e=[r]:e.push(r),t++}for(let r in n)if(!w.call(me.properties,r)){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additionalProperties",
params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.version!==void 0&&(N(n.version,{instancePath:s+"/version",parentData:n,parentDataProperty:"vers\
ion",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),n.title!==void 0){let r=n.title;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.stock!==void 0){let r=n.stock;if(typeof r=="string"){if(y(r)<
1){let i={instancePath:s+"/stock",schemaPath:"#/properties/stock/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+
"/stock",schemaPath:"#/properties/stock/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.film!==void 0&&(v(n.film,{instancePath:s+
"/film",parentData:n,parentDataProperty:"film",rootData:o})||(e=e===null?v.errors:e.concat(v.errors),t=e.length)),n.format!==void 0&&(I(n.format,{instancePath:s+
"/format",parentData:n,parentDataProperty:"format",rootData:o})||(e=e===null?I.errors:e.concat(I.errors),t=e.length)),n.exposed!==void 0&&(A(n.exposed,{instancePath:s+
"/exposed",parentData:n,parentDataProperty:"exposed",rootData:o})||(e=e===null?A.errors:e.concat(A.errors),t=e.length)),n.iptc!==void 0&&(D(n.iptc,{instancePath:s+
"/iptc",parentData:n,parentDataProperty:"iptc",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length)),n.scans!==void 0){let r=n.scans;if(typeof r=="\
string"){if(y(r)<1){let i={instancePath:s+"/scans",schemaPath:"#/properties/scans/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:s+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.light!==void 0&&($(
n.light,{instancePath:s+"/light",parentData:n,parentDataProperty:"light",rootData:o})||(e=e===null?$.errors:e.concat($.errors),t=e.length)),n.negative!==void 0&&
(P(n.negative,{instancePath:s+"/negative",parentData:n,parentDataProperty:"negative",rootData:o})||(e=e===null?P.errors:e.concat(P.errors),t=e.length)),n.positive!==
void 0&&(g(n.positive,{instancePath:s+"/positive",parentData:n,parentDataProperty:"positive",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),
n.output!==void 0&&(L(n.output,{instancePath:s+"/output",parentData:n,parentDataProperty:"output",rootData:o})||(e=e===null?L.errors:e.concat(L.errors),t=e.length)),
n.frames!==void 0){let r=n.frames;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!te.test(i)){let a={instancePath:s+"/frames",schemaPath:"#/prop\
erties/frames/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[a]:e.push(a),t++}for(let i in r)te.test(i)&&(Q(r[i],
{instancePath:s+"/frames/"+i.replace(/~/g,"~0").replace(/\//g,"~1"),parentData:r,parentDataProperty:i,rootData:o})||(e=e===null?Q.errors:e.concat(Q.errors),t=e.
length))}else{let i={instancePath:s+"/frames",schemaPath:"#/properties/frames/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}if(n.note!==
void 0&&(x(n.note,{instancePath:s+"/note",parentData:n,parentDataProperty:"note",rootData:o})||(e=e===null?x.errors:e.concat(x.errors),t=e.length)),n.fingerprints!==
void 0){let r=n.fingerprints;if(r&&typeof r=="object"&&!Array.isArray(r))for(let i in r)S(r[i],{instancePath:s+"/fingerprints/"+i.replace(/~/g,"~0").replace(/\//g,
"~1"),parentData:r,parentDataProperty:i,rootData:o})||(e=e===null?S.errors:e.concat(S.errors),t=e.length);else{let i={instancePath:s+"/fingerprints",schemaPath:"\
#/properties/fingerprints/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}n.automatic!==void 0&&(U(n.automatic,{instancePath:s+"/auto\
matic",parentData:n,parentDataProperty:"automatic",rootData:o})||(e=e===null?U.errors:e.concat(U.errors),t=e.length))}else{let r={instancePath:s,schemaPath:"#/t\
ype",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return se.errors=e,t===0}var Le=ne,De={type:"object",additionalProperties:!1,required:[
"version"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},film:{$ref:"#/definitions/film"},iso:{type:"number",minimum:.1,
maximum:1e5},format:{$ref:"#/definitions/format"},process:{type:"string"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},output:{
$ref:"#/definitions/outputs"},note:{$ref:"#/definitions/note"}}};function ne(n,{instancePath:s="",parentData:h,parentDataProperty:f,rootData:o=n}={}){let e=null,
t=0;if(n&&typeof n=="object"&&!Array.isArray(n)){if(n.version===void 0){let r={instancePath:s,schemaPath:"#/required",keyword:"required",params:{missingProperty:"\
version"}};e===null?e=[r]:e.push(r),t++}for(let r in n)if(!w.call(De.properties,r)){let i={instancePath:s,schemaPath:"#/additionalProperties",keyword:"additiona\
lProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(n.version!==void 0&&(N(n.version,{instancePath:s+"/version",parentData:n,parentDataProperty:"\
version",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),n.title!==void 0){let r=n.title;if(typeof r=="string"){if(y(r)>200){let i={instancePath:s+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:s+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(n.film!==void 0&&(v(n.film,{instancePath:s+"/film",parentData:n,
parentDataProperty:"film",rootData:o})||(e=e===null?v.errors:e.concat(v.errors),t=e.length)),n.iso!==void 0){let r=n.iso;if(typeof r=="number"&&isFinite(r)){if(r>
1e5||isNaN(r)){let i={instancePath:s+"/iso",schemaPath:"#/properties/iso/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[i]:e.push(i),
t++}if(r<.1||isNaN(r)){let i={instancePath:s+"/iso",schemaPath:"#/properties/iso/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.
push(i),t++}}else{let i={instancePath:s+"/iso",schemaPath:"#/properties/iso/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(n.format!==
void 0&&(I(n.format,{instancePath:s+"/format",parentData:n,parentDataProperty:"format",rootData:o})||(e=e===null?I.errors:e.concat(I.errors),t=e.length)),n.process!==
void 0&&typeof n.process!="string"){let r={instancePath:s+"/process",schemaPath:"#/properties/process/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:
e.push(r),t++}n.negative!==void 0&&(P(n.negative,{instancePath:s+"/negative",parentData:n,parentDataProperty:"negative",rootData:o})||(e=e===null?P.errors:e.concat(
P.errors),t=e.length)),n.positive!==void 0&&(g(n.positive,{instancePath:s+"/positive",parentData:n,parentDataProperty:"positive",rootData:o})||(e=e===null?g.errors:
e.concat(g.errors),t=e.length)),n.output!==void 0&&(L(n.output,{instancePath:s+"/output",parentData:n,parentDataProperty:"output",rootData:o})||(e=e===null?L.errors:
e.concat(L.errors),t=e.length)),n.note!==void 0&&(x(n.note,{instancePath:s+"/note",parentData:n,parentDataProperty:"note",rootData:o})||(e=e===null?x.errors:e.concat(
x.errors),t=e.length))}else{let r={instancePath:s,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return ne.errors=e,t===
0}export{Fe as roll,Le as stock};
