// Made by schemas/generate.mjs with ajv; do not edit.
var K=(s,m)=>()=>{try{return m||s((m={exports:{}}).exports,m),m.exports}catch(h){throw m=0,h}};var O=K(R=>{"use strict";Object.defineProperty(R,"__esModule",{value:!0});function C(s){let m=s.length,h=0,f=0,o;for(;f<m;)h++,o=s.charCodeAt(f++),o>=55296&&o<=
56319&&f<m&&(o=s.charCodeAt(f),(o&64512)===56320&&f++);return h}R.default=C;C.code=""});var ne=G,Q={type:"object",additionalProperties:!1,required:["version"],properties:{version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},stock:{
type:"string",minLength:1},film:{$ref:"#/definitions/film"},format:{$ref:"#/definitions/format"},exposed:{$ref:"#/definitions/exposed"},scans:{type:"string",minLength:1},
light:{$ref:"#/definitions/light"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},output:{$ref:"#/definitions/outputs"},frames:{
type:"object",patternProperties:{"^[0-9]{1,3}[A-Z]?$":{$ref:"#/definitions/frame"}},additionalProperties:!1},note:{$ref:"#/definitions/note"},fingerprints:{type:"\
object",additionalProperties:{$ref:"#/definitions/fingerprint"}}}},_=Object.prototype.hasOwnProperty,c=O().default;function w(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s!==1){let r={instancePath:m,schemaPath:"#/const",keyword:"\
const",params:{allowedValue:1}};e===null?e=[r]:e.push(r),t++}return w.errors=e,t===0}var S={enum:["colour-negative","black-and-white-negative","slide"]};function k(s,{
instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(!(s==="colour-negative"||s==="black-and-white-negative"||s==="slide")){let r={
instancePath:m,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:S.enum}};e===null?e=[r]:e.push(r),t++}return k.errors=e,t===0}var T={enum:["135","135-ha\
lf","645","6x6","6x7","6x8","6x9","6x12","6x17","4x5in","5x7in","8x10in"]};function x(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,
t=0;if(!(s==="135"||s==="135-half"||s==="645"||s==="6x6"||s==="6x7"||s==="6x8"||s==="6x9"||s==="6x12"||s==="6x17"||s==="4x5in"||s==="5x7in"||s==="8x10in")){let r={
instancePath:m,schemaPath:"#/enum",keyword:"enum",params:{allowedValues:T.enum}};e===null?e=[r]:e.push(r),t++}return x.errors=e,t===0}var U=new RegExp("^[0-9]{4}-[0-9]{2}-[0-9]{2}$","u");function D(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s==
"object"&&!Array.isArray(s)){for(let r in s)if(!(r==="camera"||r==="lens"||r==="date"||r==="rated"||r==="push"||r==="place")){let i={instancePath:m,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.camera!==void 0){let r=s.camera;if(typeof r==
"string"){if(c(r)>200){let i={instancePath:m+"/camera",schemaPath:"#/properties/camera/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(
i),t++}}else{let i={instancePath:m+"/camera",schemaPath:"#/properties/camera/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.lens!==
void 0){let r=s.lens;if(typeof r=="string"){if(c(r)>200){let i={instancePath:m+"/lens",schemaPath:"#/properties/lens/maxLength",keyword:"maxLength",params:{limit:200}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/lens",schemaPath:"#/properties/lens/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(
i),t++}}if(s.date!==void 0){let r=s.date;if(typeof r=="string"){if(!U.test(r)){let i={instancePath:m+"/date",schemaPath:"#/properties/date/pattern",keyword:"pat\
tern",params:{pattern:"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/date",schemaPath:"#/properties/date/type",keyword:"\
type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.rated!==void 0){let r=s.rated;if(typeof r=="number"&&isFinite(r)){if(r>1e5||isNaN(r)){let i={instancePath:m+
"/rated",schemaPath:"#/properties/rated/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[i]:e.push(i),t++}if(r<.1||isNaN(r)){let i={instancePath:m+
"/rated",schemaPath:"#/properties/rated/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"\
/rated",schemaPath:"#/properties/rated/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.push!==void 0){let r=s.push;if(typeof r==
"number"&&isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:m+"/push",schemaPath:"#/properties/push/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};
e===null?e=[i]:e.push(i),t++}if(r<-5||isNaN(r)){let i={instancePath:m+"/push",schemaPath:"#/properties/push/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/push",schemaPath:"#/properties/push/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(
i),t++}}if(s.place!==void 0){let r=s.place;if(typeof r=="string"){if(c(r)>200){let i={instancePath:m+"/place",schemaPath:"#/properties/place/maxLength",keyword:"\
maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/place",schemaPath:"#/properties/place/type",keyword:"type",params:{type:"\
string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return D.
errors=e,t===0}var W={type:"object",additionalProperties:!1,properties:{blank:{type:"string",minLength:1},flare:{type:["number","array"],minimum:0,maximum:.2,items:{
type:"number",minimum:0,maximum:.2},minItems:3,maxItems:3},spots:{$ref:"#/definitions/spots"}}};var X={type:["array","object"],minItems:3,maxItems:3,items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4},{type:"number",minimum:1e-5,
maximum:.1}],required:["line","width"],additionalProperties:!1,properties:{line:{type:"array",minItems:2,maxItems:200,items:{type:"array",minItems:2,maxItems:2,
items:[{type:"number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:4}]}},width:{type:"number",minimum:2e-5,maximum:.05}}};function A(s,{instancePath:m="",
parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(!s||typeof s!="object"){let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:X.
type}};e===null?e=[r]:e.push(r),t++}if(Array.isArray(s)){if(s.length>3){let i={instancePath:m,schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?
e=[i]:e.push(i),t++}if(s.length<3){let i={instancePath:m,schemaPath:"#/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}let r=s.length;
if(r>0){let i=s[0];if(typeof i=="number"&&isFinite(i)){if(i>1||isNaN(i)){let n={instancePath:m+"/0",schemaPath:"#/items/0/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:1}};e===null?e=[n]:e.push(n),t++}if(i<0||isNaN(i)){let n={instancePath:m+"/0",schemaPath:"#/items/0/minimum",keyword:"minimum",params:{comparison:">=",
limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:m+"/0",schemaPath:"#/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.push(
n),t++}}if(r>1){let i=s[1];if(typeof i=="number"&&isFinite(i)){if(i>4||isNaN(i)){let n={instancePath:m+"/1",schemaPath:"#/items/1/maximum",keyword:"maximum",params:{
comparison:"<=",limit:4}};e===null?e=[n]:e.push(n),t++}if(i<0||isNaN(i)){let n={instancePath:m+"/1",schemaPath:"#/items/1/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:m+"/1",schemaPath:"#/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[n]:e.
push(n),t++}}if(r>2){let i=s[2];if(typeof i=="number"&&isFinite(i)){if(i>.1||isNaN(i)){let n={instancePath:m+"/2",schemaPath:"#/items/2/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:.1}};e===null?e=[n]:e.push(n),t++}if(i<1e-5||isNaN(i)){let n={instancePath:m+"/2",schemaPath:"#/items/2/minimum",keyword:"minim\
um",params:{comparison:">=",limit:1e-5}};e===null?e=[n]:e.push(n),t++}}else{let n={instancePath:m+"/2",schemaPath:"#/items/2/type",keyword:"type",params:{type:"\
number"}};e===null?e=[n]:e.push(n),t++}}}if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.line===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"\
required",params:{missingProperty:"line"}};e===null?e=[r]:e.push(r),t++}if(s.width===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{
missingProperty:"width"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="line"||r==="width")){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"\
additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.line!==void 0){let r=s.line;if(Array.isArray(r)){if(r.length>200){let n={
instancePath:m+"/line",schemaPath:"#/properties/line/maxItems",keyword:"maxItems",params:{limit:200}};e===null?e=[n]:e.push(n),t++}if(r.length<2){let n={instancePath:m+
"/line",schemaPath:"#/properties/line/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++){let a=r[n];
if(Array.isArray(a)){if(a.length>2){let l={instancePath:m+"/line/"+n,schemaPath:"#/properties/line/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}if(a.length<2){let l={instancePath:m+"/line/"+n,schemaPath:"#/properties/line/items/minItems",keyword:"minItems",params:{limit:2}};e===null?
e=[l]:e.push(l),t++}let p=a.length;if(p>0){let l=a[0];if(typeof l=="number"&&isFinite(l)){if(l>1||isNaN(l)){let u={instancePath:m+"/line/"+n+"/0",schemaPath:"#/\
properties/line/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:m+
"/line/"+n+"/0",schemaPath:"#/properties/line/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:m+"/line/"+n+"/0",schemaPath:"#/properties/line/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=a[1];
if(typeof l=="number"&&isFinite(l)){if(l>4||isNaN(l)){let u={instancePath:m+"/line/"+n+"/1",schemaPath:"#/properties/line/items/items/1/maximum",keyword:"maximu\
m",params:{comparison:"<=",limit:4}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:m+"/line/"+n+"/1",schemaPath:"#/properties/line/items/it\
ems/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:m+"/line/"+n+"/1",schemaPath:"#/proper\
ties/line/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:m+"/line/"+n,schemaPath:"#/properti\
es/line/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/line",schemaPath:"#/properties/line/type",
keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.width!==void 0){let r=s.width;if(typeof r=="number"&&isFinite(r)){if(r>.05||isNaN(r)){let i={
instancePath:m+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{comparison:"<=",limit:.05}};e===null?e=[i]:e.push(i),t++}if(r<2e-5||isNaN(
r)){let i={instancePath:m+"/width",schemaPath:"#/properties/width/minimum",keyword:"minimum",params:{comparison:">=",limit:2e-5}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:m+"/width",schemaPath:"#/properties/width/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}return A.errors=e,t===
0}function b(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>5e3){let i={instancePath:m,
schemaPath:"#/maxItems",keyword:"maxItems",params:{limit:5e3}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++)A(s[i],{instancePath:m+"/"+i,parentData:s,
parentDataProperty:i,rootData:o})||(e=e===null?A.errors:e.concat(A.errors),t=e.length)}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"\
array"}};e===null?e=[r]:e.push(r),t++}return b.errors=e,t===0}function N(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="blank"||r==="flare"||r==="spots")){let i={instancePath:m,schemaPath:"#/additionalPropertie\
s",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.blank!==void 0){let r=s.blank;if(typeof r=="string"){if(c(r)<
1){let i={instancePath:m+"/blank",schemaPath:"#/properties/blank/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+
"/blank",schemaPath:"#/properties/blank/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.flare!==void 0){let r=s.flare;if(!(typeof r==
"number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:m+"/flare",schemaPath:"#/properties/flare/type",keyword:"type",params:{type:W.properties.flare.type}};
e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>.2||isNaN(r)){let i={instancePath:m+"/flare",schemaPath:"#/properties/flare/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:.2}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+"/flare",schemaPath:"#/properties/flare/minimum",
keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>3){let n={instancePath:m+"/flare",schemaPath:"\
#/properties/flare/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(r.length<3){let n={instancePath:m+"/flare",schemaPath:"#/prope\
rties/flare/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++){let a=r[n];if(typeof a=="number"&&isFinite(
a)){if(a>.2||isNaN(a)){let p={instancePath:m+"/flare/"+n,schemaPath:"#/properties/flare/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:.2}};e===
null?e=[p]:e.push(p),t++}if(a<0||isNaN(a)){let p={instancePath:m+"/flare/"+n,schemaPath:"#/properties/flare/items/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/flare/"+n,schemaPath:"#/properties/flare/items/type",keyword:"type",params:{type:"numbe\
r"}};e===null?e=[p]:e.push(p),t++}}}}s.spots!==void 0&&(b(s.spots,{instancePath:m+"/spots",parentData:s,parentDataProperty:"spots",rootData:o})||(e=e===null?b.errors:
e.concat(b.errors),t=e.length))}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return N.errors=
e,t===0}var Y={type:"object",additionalProperties:!1,properties:{base:{$ref:"#/definitions/base"},gamma:{type:["number","array"],minimum:.1,maximum:3,items:{type:"\
number",minimum:.1,maximum:3},minItems:3,maxItems:3},curve:{$ref:"#/definitions/filmCurve"},unmix:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/definitions\
/unmixRow"}},colour:{type:"array",minItems:3,maxItems:3,items:{$ref:"#/definitions/colourRow"}}}};var ee={type:"object",additionalProperties:!1,required:["scan"],properties:{scan:{type:"string",minLength:1},area:{type:"array",minItems:4,maxItems:4,items:[{type:"\
number",minimum:0,maximum:1},{type:"number",minimum:0,maximum:1},{type:"number",minimum:1e-4,maximum:1},{type:"number",minimum:1e-4,maximum:1}]},scatter:{type:[
"number","array"],minimum:0,maximum:2,items:{type:"number",minimum:0,maximum:2},minItems:3,maxItems:3}}};function j(s,{instancePath:m="",parentData:h,parentDataProperty:f,
rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.scan===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"require\
d",params:{missingProperty:"scan"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="scan"||r==="area"||r==="scatter")){let i={instancePath:m,schemaPath:"#\
/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.scan!==void 0){let r=s.scan;if(typeof r==
"string"){if(c(r)<1){let i={instancePath:m+"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:m+"/scan",schemaPath:"#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.area!==void 0){let r=s.
area;if(Array.isArray(r)){if(r.length>4){let n={instancePath:m+"/area",schemaPath:"#/properties/area/maxItems",keyword:"maxItems",params:{limit:4}};e===null?e=[
n]:e.push(n),t++}if(r.length<4){let n={instancePath:m+"/area",schemaPath:"#/properties/area/minItems",keyword:"minItems",params:{limit:4}};e===null?e=[n]:e.push(
n),t++}let i=r.length;if(i>0){let n=r[0];if(typeof n=="number"&&isFinite(n)){if(n>1||isNaN(n)){let a={instancePath:m+"/area/0",schemaPath:"#/properties/area/ite\
ms/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[a]:e.push(a),t++}if(n<0||isNaN(n)){let a={instancePath:m+"/area/0",schemaPath:"#/p\
roperties/area/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/area/0",schemaPath:"\
#/properties/area/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}if(i>1){let n=r[1];if(typeof n=="number"&&isFinite(n)){if(n>
1||isNaN(n)){let a={instancePath:m+"/area/1",schemaPath:"#/properties/area/items/1/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[a]:e.
push(a),t++}if(n<0||isNaN(n)){let a={instancePath:m+"/area/1",schemaPath:"#/properties/area/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};
e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/area/1",schemaPath:"#/properties/area/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=
[a]:e.push(a),t++}}if(i>2){let n=r[2];if(typeof n=="number"&&isFinite(n)){if(n>1||isNaN(n)){let a={instancePath:m+"/area/2",schemaPath:"#/properties/area/items/\
2/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[a]:e.push(a),t++}if(n<1e-4||isNaN(n)){let a={instancePath:m+"/area/2",schemaPath:"#/p\
roperties/area/items/2/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/area/2",schemaPath:"\
#/properties/area/items/2/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}if(i>3){let n=r[3];if(typeof n=="number"&&isFinite(n)){if(n>
1||isNaN(n)){let a={instancePath:m+"/area/3",schemaPath:"#/properties/area/items/3/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[a]:e.
push(a),t++}if(n<1e-4||isNaN(n)){let a={instancePath:m+"/area/3",schemaPath:"#/properties/area/items/3/minimum",keyword:"minimum",params:{comparison:">=",limit:1e-4}};
e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/area/3",schemaPath:"#/properties/area/items/3/type",keyword:"type",params:{type:"number"}};e===null?e=
[a]:e.push(a),t++}}}else{let i={instancePath:m+"/area",schemaPath:"#/properties/area/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.
scatter!==void 0){let r=s.scatter;if(!(typeof r=="number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:m+"/scatter",schemaPath:"#/properties/scatter/ty\
pe",keyword:"type",params:{type:ee.properties.scatter.type}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>2||isNaN(r)){let i={instancePath:m+
"/scatter",schemaPath:"#/properties/scatter/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+
"/scatter",schemaPath:"#/properties/scatter/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.
length>3){let n={instancePath:m+"/scatter",schemaPath:"#/properties/scatter/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(r.length<
3){let n={instancePath:m+"/scatter",schemaPath:"#/properties/scatter/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let i=r.length;
for(let n=0;n<i;n++){let a=r[n];if(typeof a=="number"&&isFinite(a)){if(a>2||isNaN(a)){let p={instancePath:m+"/scatter/"+n,schemaPath:"#/properties/scatter/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:2}};e===null?e=[p]:e.push(p),t++}if(a<0||isNaN(a)){let p={instancePath:m+"/scatter/"+n,schemaPath:"#/p\
roperties/scatter/items/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/scatter/"+n,schemaPath:"\
#/properties/scatter/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"\
type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return j.errors=e,t===0}function F(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){
let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="density"||r==="read")){let i={instancePath:m,schemaPath:"#/additionalProper\
ties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.density!==void 0){let r=s.density;if(Array.isArray(r)){if(r.
length>3){let n={instancePath:m+"/density",schemaPath:"#/properties/density/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(r.length<
3){let n={instancePath:m+"/density",schemaPath:"#/properties/density/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let i=r.length;
for(let n=0;n<i;n++){let a=r[n];if(typeof a=="number"&&isFinite(a)){if(a>5||isNaN(a)){let p={instancePath:m+"/density/"+n,schemaPath:"#/properties/density/items\
/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[p]:e.push(p),t++}if(a<-1||isNaN(a)){let p={instancePath:m+"/density/"+n,schemaPath:"#/\
properties/density/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/density/"+n,schemaPath:"\
#/properties/density/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/density",schemaPath:"#/prope\
rties/density/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}s.read!==void 0&&(j(s.read,{instancePath:m+"/read",parentData:s,parentDataProperty:"\
read",rootData:o})||(e=e===null?j.errors:e.concat(j.errors),t=e.length))}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===
null?e=[r]:e.push(r),t++}return F.errors=e,t===0}function y(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>256){let i={instancePath:m,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[i]:e.push(i),t++}if(s.length<2){let i={instancePath:m,schemaPath:"#/minItems",keyword:"minItems",
params:{limit:2}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let n=s[i];if(typeof n=="number"&&isFinite(n)){if(n>6||isNaN(n)){let a={instancePath:m+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:6}};e===null?e=[a]:e.push(a),t++}if(n<-1||isNaN(n)){let a={instancePath:m+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-1}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return y.errors=e,t===0}function $(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.logH===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"logH"}};
e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="logH"||r==="red"||r==="green"||r==="blue"||r==="density"||r==="mid")){let i={instancePath:m,schemaPath:"#/\
additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.logH!==void 0){let r=s.logH;if(Array.isArray(
r)){if(r.length>256){let n={instancePath:m+"/logH",schemaPath:"#/properties/logH/maxItems",keyword:"maxItems",params:{limit:256}};e===null?e=[n]:e.push(n),t++}if(r.
length<2){let n={instancePath:m+"/logH",schemaPath:"#/properties/logH/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[n]:e.push(n),t++}let i=r.length;
for(let n=0;n<i;n++){let a=r[n];if(typeof a=="number"&&isFinite(a)){if(a>8||isNaN(a)){let p={instancePath:m+"/logH/"+n,schemaPath:"#/properties/logH/items/maxim\
um",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[p]:e.push(p),t++}if(a<-8||isNaN(a)){let p={instancePath:m+"/logH/"+n,schemaPath:"#/propertie\
s/logH/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/logH/"+n,schemaPath:"#/pro\
perties/logH/items/type",keyword:"type",params:{type:"number"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/logH",schemaPath:"#/properties/logH/\
type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.red!==void 0&&(y(s.red,{instancePath:m+"/red",parentData:s,parentDataProperty:"re\
d",rootData:o})||(e=e===null?y.errors:e.concat(y.errors),t=e.length)),s.green!==void 0&&(y(s.green,{instancePath:m+"/green",parentData:s,parentDataProperty:"gre\
en",rootData:o})||(e=e===null?y.errors:e.concat(y.errors),t=e.length)),s.blue!==void 0&&(y(s.blue,{instancePath:m+"/blue",parentData:s,parentDataProperty:"blue",
rootData:o})||(e=e===null?y.errors:e.concat(y.errors),t=e.length)),s.density!==void 0&&(y(s.density,{instancePath:m+"/density",parentData:s,parentDataProperty:"\
density",rootData:o})||(e=e===null?y.errors:e.concat(y.errors),t=e.length)),s.mid!==void 0){let r=s.mid;if(typeof r=="number"&&isFinite(r)){if(r>8||isNaN(r)){let i={
instancePath:m+"/mid",schemaPath:"#/properties/mid/maximum",keyword:"maximum",params:{comparison:"<=",limit:8}};e===null?e=[i]:e.push(i),t++}if(r<-8||isNaN(r)){
let i={instancePath:m+"/mid",schemaPath:"#/properties/mid/minimum",keyword:"minimum",params:{comparison:">=",limit:-8}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:m+"/mid",schemaPath:"#/properties/mid/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"\
#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return $.errors=e,t===0}function L(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>3){let i={instancePath:m,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}if(s.length<3){let i={instancePath:m,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let n=s[i];if(typeof n=="number"&&isFinite(n)){if(n>4||isNaN(n)){let a={instancePath:m+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:4}};e===null?e=[a]:e.push(a),t++}if(n<-4||isNaN(n)){let a={instancePath:m+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-4}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return L.errors=e,t===0}function q(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>3){let i={instancePath:m,schemaPath:"\
#/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[i]:e.push(i),t++}if(s.length<3){let i={instancePath:m,schemaPath:"#/minItems",keyword:"minItems",params:{
limit:3}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++){let n=s[i];if(typeof n=="number"&&isFinite(n)){if(n>5||isNaN(n)){let a={instancePath:m+
"/"+i,schemaPath:"#/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:5}};e===null?e=[a]:e.push(a),t++}if(n<-5||isNaN(n)){let a={instancePath:m+"/"+
i,schemaPath:"#/items/minimum",keyword:"minimum",params:{comparison:">=",limit:-5}};e===null?e=[a]:e.push(a),t++}}else{let a={instancePath:m+"/"+i,schemaPath:"#\
/items/type",keyword:"type",params:{type:"number"}};e===null?e=[a]:e.push(a),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"a\
rray"}};e===null?e=[r]:e.push(r),t++}return q.errors=e,t===0}function d(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="base"||r==="gamma"||r==="curve"||r==="unmix"||r==="colour")){let i={instancePath:m,schemaPath:"\
#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.base!==void 0&&(F(s.base,{instancePath:m+
"/base",parentData:s,parentDataProperty:"base",rootData:o})||(e=e===null?F.errors:e.concat(F.errors),t=e.length)),s.gamma!==void 0){let r=s.gamma;if(!(typeof r==
"number"&&isFinite(r))&&!Array.isArray(r)){let i={instancePath:m+"/gamma",schemaPath:"#/properties/gamma/type",keyword:"type",params:{type:Y.properties.gamma.type}};
e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>3||isNaN(r)){let i={instancePath:m+"/gamma",schemaPath:"#/properties/gamma/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:3}};e===null?e=[i]:e.push(i),t++}if(r<.1||isNaN(r)){let i={instancePath:m+"/gamma",schemaPath:"#/properties/gamma/minimum",
keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.push(i),t++}}if(Array.isArray(r)){if(r.length>3){let n={instancePath:m+"/gamma",schemaPath:"\
#/properties/gamma/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(r.length<3){let n={instancePath:m+"/gamma",schemaPath:"#/prope\
rties/gamma/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++){let a=r[n];if(typeof a=="number"&&isFinite(
a)){if(a>3||isNaN(a)){let p={instancePath:m+"/gamma/"+n,schemaPath:"#/properties/gamma/items/maximum",keyword:"maximum",params:{comparison:"<=",limit:3}};e===null?
e=[p]:e.push(p),t++}if(a<.1||isNaN(a)){let p={instancePath:m+"/gamma/"+n,schemaPath:"#/properties/gamma/items/minimum",keyword:"minimum",params:{comparison:">=",
limit:.1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/gamma/"+n,schemaPath:"#/properties/gamma/items/type",keyword:"type",params:{type:"number"}};
e===null?e=[p]:e.push(p),t++}}}}if(s.curve!==void 0&&($(s.curve,{instancePath:m+"/curve",parentData:s,parentDataProperty:"curve",rootData:o})||(e=e===null?$.errors:
e.concat($.errors),t=e.length)),s.unmix!==void 0){let r=s.unmix;if(Array.isArray(r)){if(r.length>3){let n={instancePath:m+"/unmix",schemaPath:"#/properties/unmi\
x/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(r.length<3){let n={instancePath:m+"/unmix",schemaPath:"#/properties/unmix/minIt\
ems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++)L(r[n],{instancePath:m+"/unmix/"+n,parentData:r,parentDataProperty:n,
rootData:o})||(e=e===null?L.errors:e.concat(L.errors),t=e.length)}else{let i={instancePath:m+"/unmix",schemaPath:"#/properties/unmix/type",keyword:"type",params:{
type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.colour!==void 0){let r=s.colour;if(Array.isArray(r)){if(r.length>3){let n={instancePath:m+"/colour",schemaPath:"\
#/properties/colour/maxItems",keyword:"maxItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}if(r.length<3){let n={instancePath:m+"/colour",schemaPath:"#/pro\
perties/colour/minItems",keyword:"minItems",params:{limit:3}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++)q(r[n],{instancePath:m+"/colour/"+
n,parentData:r,parentDataProperty:n,rootData:o})||(e=e===null?q.errors:e.concat(q.errors),t=e.length)}else{let i={instancePath:m+"/colour",schemaPath:"#/propert\
ies/colour/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"\
object"}};e===null?e=[r]:e.push(r),t++}return d.errors=e,t===0}function E(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r===
"cyan"||r==="magenta"||r==="yellow")){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===
null?e=[i]:e.push(i),t++}if(s.cyan!==void 0){let r=s.cyan;if(typeof r=="number"&&isFinite(r)){if(r>200||isNaN(r)){let i={instancePath:m+"/cyan",schemaPath:"#/pr\
operties/cyan/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:m+"/cyan",schemaPath:"\
#/properties/cyan/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/cyan",schemaPath:"#\
/properties/cyan/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.magenta!==void 0){let r=s.magenta;if(typeof r=="number"&&isFinite(
r)){if(r>200||isNaN(r)){let i={instancePath:m+"/magenta",schemaPath:"#/properties/magenta/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?
e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:m+"/magenta",schemaPath:"#/properties/magenta/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/magenta",schemaPath:"#/properties/magenta/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:
e.push(i),t++}}if(s.yellow!==void 0){let r=s.yellow;if(typeof r=="number"&&isFinite(r)){if(r>200||isNaN(r)){let i={instancePath:m+"/yellow",schemaPath:"#/proper\
ties/yellow/maximum",keyword:"maximum",params:{comparison:"<=",limit:200}};e===null?e=[i]:e.push(i),t++}if(r<-200||isNaN(r)){let i={instancePath:m+"/yellow",schemaPath:"\
#/properties/yellow/minimum",keyword:"minimum",params:{comparison:">=",limit:-200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/yellow",schemaPath:"\
#/properties/yellow/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{
type:"object"}};e===null?e=[r]:e.push(r),t++}return E.errors=e,t===0}function P(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,
t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r==="exposure"||r==="filtration"||r==="contrast"||r==="toe"||r==="shoulder"||r==="black"||r===
"saturation"||r==="curve")){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?e=[
i]:e.push(i),t++}if(s.exposure!==void 0){let r=s.exposure;if(typeof r=="number"&&isFinite(r)){if(r>10||isNaN(r)){let i={instancePath:m+"/exposure",schemaPath:"#\
/properties/exposure/maximum",keyword:"maximum",params:{comparison:"<=",limit:10}};e===null?e=[i]:e.push(i),t++}if(r<-10||isNaN(r)){let i={instancePath:m+"/expo\
sure",schemaPath:"#/properties/exposure/minimum",keyword:"minimum",params:{comparison:">=",limit:-10}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+
"/exposure",schemaPath:"#/properties/exposure/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.filtration!==void 0&&(E(s.filtration,
{instancePath:m+"/filtration",parentData:s,parentDataProperty:"filtration",rootData:o})||(e=e===null?E.errors:e.concat(E.errors),t=e.length)),s.contrast!==void 0){
let r=s.contrast;if(typeof r=="number"&&isFinite(r)){if(r>5||isNaN(r)){let i={instancePath:m+"/contrast",schemaPath:"#/properties/contrast/maximum",keyword:"max\
imum",params:{comparison:"<=",limit:5}};e===null?e=[i]:e.push(i),t++}if(r<.2||isNaN(r)){let i={instancePath:m+"/contrast",schemaPath:"#/properties/contrast/mini\
mum",keyword:"minimum",params:{comparison:">=",limit:.2}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/contrast",schemaPath:"#/properties/contrast\
/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.toe!==void 0){let r=s.toe;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){
let i={instancePath:m+"/toe",schemaPath:"#/properties/toe/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(
r)){let i={instancePath:m+"/toe",schemaPath:"#/properties/toe/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:m+"/toe",schemaPath:"#/properties/toe/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.shoulder!==void 0){let r=s.shoulder;
if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:m+"/shoulder",schemaPath:"#/properties/shoulder/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+"/shoulder",schemaPath:"#/properties/shoulder/minimum",keyword:"minimum",params:{
comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/shoulder",schemaPath:"#/properties/shoulder/type",keyword:"type",params:{type:"\
number"}};e===null?e=[i]:e.push(i),t++}}if(s.black!==void 0){let r=s.black;if(typeof r=="number"&&isFinite(r)){if(r>30||isNaN(r)){let i={instancePath:m+"/black",
schemaPath:"#/properties/black/maximum",keyword:"maximum",params:{comparison:"<=",limit:30}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+
"/black",schemaPath:"#/properties/black/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/\
black",schemaPath:"#/properties/black/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.saturation!==void 0){let r=s.saturation;if(typeof r==
"number"&&isFinite(r)){if(r>3||isNaN(r)){let i={instancePath:m+"/saturation",schemaPath:"#/properties/saturation/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:3}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+"/saturation",schemaPath:"#/properties/saturation/minimum",keyword:"minimum",
params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/saturation",schemaPath:"#/properties/saturation/type",keyword:"type",
params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.curve!==void 0){let r=s.curve;if(Array.isArray(r)){if(r.length>64){let n={instancePath:m+"/curve",schemaPath:"\
#/properties/curve/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++){let a=r[n];if(Array.isArray(
a)){if(a.length>2){let l={instancePath:m+"/curve/"+n,schemaPath:"#/properties/curve/items/maxItems",keyword:"maxItems",params:{limit:2}};e===null?e=[l]:e.push(l),
t++}if(a.length<2){let l={instancePath:m+"/curve/"+n,schemaPath:"#/properties/curve/items/minItems",keyword:"minItems",params:{limit:2}};e===null?e=[l]:e.push(l),
t++}let p=a.length;if(p>0){let l=a[0];if(typeof l=="number"&&isFinite(l)){if(l>100||isNaN(l)){let u={instancePath:m+"/curve/"+n+"/0",schemaPath:"#/properties/cu\
rve/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:100}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:m+"/curve/"+
n+"/0",schemaPath:"#/properties/curve/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:m+
"/curve/"+n+"/0",schemaPath:"#/properties/curve/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=a[1];if(typeof l==
"number"&&isFinite(l)){if(l>100||isNaN(l)){let u={instancePath:m+"/curve/"+n+"/1",schemaPath:"#/properties/curve/items/items/1/maximum",keyword:"maximum",params:{
comparison:"<=",limit:100}};e===null?e=[u]:e.push(u),t++}if(l<0||isNaN(l)){let u={instancePath:m+"/curve/"+n+"/1",schemaPath:"#/properties/curve/items/items/1/m\
inimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:m+"/curve/"+n+"/1",schemaPath:"#/properties/c\
urve/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:m+"/curve/"+n,schemaPath:"#/properties/c\
urve/items/type",keyword:"type",params:{type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/curve",schemaPath:"#/properties/curve/type",keyword:"\
type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:
e.push(r),t++}return P.errors=e,t===0}var I={type:"object",additionalProperties:!1,required:["name","type"],properties:{name:{type:"string",pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"},type:{enum:[
"tiff","jpeg","png","webp","avif"]},depth:{enum:[8,16]},quality:{type:"integer",minimum:1,maximum:100},space:{enum:["srgb","p3","adobe","romm"]},long:{type:"int\
eger",minimum:16,maximum:6e4},sharpen:{type:"number",minimum:0,maximum:1},compression:{enum:["none","deflate"]}}},re=new RegExp("^[A-Za-z0-9][A-Za-z0-9 _.-]{0,6\
2}$","u");function z(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.name===
void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"name"}};e===null?e=[r]:e.push(r),t++}if(s.type===void 0){let r={
instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"type"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!(r==="name"||r==="typ\
e"||r==="depth"||r==="quality"||r==="space"||r==="long"||r==="sharpen"||r==="compression")){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"a\
dditionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.name!==void 0){let r=s.name;if(typeof r=="string"){if(!re.test(r)){let i={
instancePath:m+"/name",schemaPath:"#/properties/name/pattern",keyword:"pattern",params:{pattern:"^[A-Za-z0-9][A-Za-z0-9 _.-]{0,62}$"}};e===null?e=[i]:e.push(i),
t++}}else{let i={instancePath:m+"/name",schemaPath:"#/properties/name/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.type!==void 0){
let r=s.type;if(!(r==="tiff"||r==="jpeg"||r==="png"||r==="webp"||r==="avif")){let i={instancePath:m+"/type",schemaPath:"#/properties/type/enum",keyword:"enum",params:{
allowedValues:I.properties.type.enum}};e===null?e=[i]:e.push(i),t++}}if(s.depth!==void 0){let r=s.depth;if(!(r===8||r===16)){let i={instancePath:m+"/depth",schemaPath:"\
#/properties/depth/enum",keyword:"enum",params:{allowedValues:I.properties.depth.enum}};e===null?e=[i]:e.push(i),t++}}if(s.quality!==void 0){let r=s.quality;if(!(typeof r==
"number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:m+"/quality",schemaPath:"#/properties/quality/type",keyword:"type",params:{type:"integer"}};e===null?
e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>100||isNaN(r)){let i={instancePath:m+"/quality",schemaPath:"#/properties/quality/maximum",keyword:"\
maximum",params:{comparison:"<=",limit:100}};e===null?e=[i]:e.push(i),t++}if(r<1||isNaN(r)){let i={instancePath:m+"/quality",schemaPath:"#/properties/quality/mi\
nimum",keyword:"minimum",params:{comparison:">=",limit:1}};e===null?e=[i]:e.push(i),t++}}}if(s.space!==void 0){let r=s.space;if(!(r==="srgb"||r==="p3"||r==="ado\
be"||r==="romm")){let i={instancePath:m+"/space",schemaPath:"#/properties/space/enum",keyword:"enum",params:{allowedValues:I.properties.space.enum}};e===null?e=
[i]:e.push(i),t++}}if(s.long!==void 0){let r=s.long;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:m+"/long",schemaPath:"#/proper\
ties/long/type",keyword:"type",params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>6e4||isNaN(r)){let i={instancePath:m+
"/long",schemaPath:"#/properties/long/maximum",keyword:"maximum",params:{comparison:"<=",limit:6e4}};e===null?e=[i]:e.push(i),t++}if(r<16||isNaN(r)){let i={instancePath:m+
"/long",schemaPath:"#/properties/long/minimum",keyword:"minimum",params:{comparison:">=",limit:16}};e===null?e=[i]:e.push(i),t++}}}if(s.sharpen!==void 0){let r=s.
sharpen;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:m+"/sharpen",schemaPath:"#/properties/sharpen/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+"/sharpen",schemaPath:"#/properties/sharpen/minimum",keyword:"min\
imum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/sharpen",schemaPath:"#/properties/sharpen/type",keyword:"type",
params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.compression!==void 0){let r=s.compression;if(!(r==="none"||r==="deflate")){let i={instancePath:m+"/co\
mpression",schemaPath:"#/properties/compression/enum",keyword:"enum",params:{allowedValues:I.properties.compression.enum}};e===null?e=[i]:e.push(i),t++}}}else{let r={
instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return z.errors=e,t===0}function v(s,{instancePath:m="",parentData:h,
parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(Array.isArray(s)){if(s.length>32){let i={instancePath:m,schemaPath:"#/maxItems",keyword:"maxItems",params:{
limit:32}};e===null?e=[i]:e.push(i),t++}let r=s.length;for(let i=0;i<r;i++)z(s[i],{instancePath:m+"/"+i,parentData:s,parentDataProperty:i,rootData:o})||(e=e===null?
z.errors:e.concat(z.errors),t=e.length)}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"array"}};e===null?e=[r]:e.push(r),t++}return v.
errors=e,t===0}var M={type:"object",additionalProperties:!1,properties:{scan:{type:"string",minLength:1},scans:{type:"array",minItems:1,maxItems:64,items:{type:"\
string",minLength:1}},unused:{type:"array",minItems:1,maxItems:64,items:{type:"string",minLength:1}},join:{type:"array",minItems:1,maxItems:64,items:{type:"arra\
y",minItems:3,maxItems:3,items:[{type:"number",minimum:-2e5,maximum:2e5},{type:"number",minimum:-2e5,maximum:2e5},{type:"number",minimum:-45,maximum:45}]}},area:{
$ref:"#/definitions/frameArea"},turn:{enum:[0,90,180,270]},mirror:{type:"boolean"},skip:{type:"boolean"},light:{$ref:"#/definitions/light"},negative:{$ref:"#/de\
finitions/negative"},positive:{$ref:"#/definitions/positive"},spots:{$ref:"#/definitions/spots"},title:{type:"string",maxLength:200},note:{$ref:"#/definitions/n\
ote"}}};function H(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!(r===
"left"||r==="top"||r==="width"||r==="height"||r==="tilt")){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(s.left!==void 0){let r=s.left;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:m+"/left",schemaPath:"#/\
properties/left/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<0||isNaN(r)){let i={instancePath:m+"/left",schemaPath:"\
#/properties/left/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/left",schemaPath:"#/pr\
operties/left/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.top!==void 0){let r=s.top;if(typeof r=="number"&&isFinite(r)){if(r>
1||isNaN(r)){let i={instancePath:m+"/top",schemaPath:"#/properties/top/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}
if(r<0||isNaN(r)){let i={instancePath:m+"/top",schemaPath:"#/properties/top/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),
t++}}else{let i={instancePath:m+"/top",schemaPath:"#/properties/top/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.width!==void 0){
let r=s.width;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:m+"/width",schemaPath:"#/properties/width/maximum",keyword:"maximum",params:{
comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<.001||isNaN(r)){let i={instancePath:m+"/width",schemaPath:"#/properties/width/minimum",keyword:"mini\
mum",params:{comparison:">=",limit:.001}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/width",schemaPath:"#/properties/width/type",keyword:"type",
params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.height!==void 0){let r=s.height;if(typeof r=="number"&&isFinite(r)){if(r>1||isNaN(r)){let i={instancePath:m+
"/height",schemaPath:"#/properties/height/maximum",keyword:"maximum",params:{comparison:"<=",limit:1}};e===null?e=[i]:e.push(i),t++}if(r<.001||isNaN(r)){let i={
instancePath:m+"/height",schemaPath:"#/properties/height/minimum",keyword:"minimum",params:{comparison:">=",limit:.001}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:m+"/height",schemaPath:"#/properties/height/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.tilt!==void 0){let r=s.
tilt;if(typeof r=="number"&&isFinite(r)){if(r>45||isNaN(r)){let i={instancePath:m+"/tilt",schemaPath:"#/properties/tilt/maximum",keyword:"maximum",params:{comparison:"\
<=",limit:45}};e===null?e=[i]:e.push(i),t++}if(r<-45||isNaN(r)){let i={instancePath:m+"/tilt",schemaPath:"#/properties/tilt/minimum",keyword:"minimum",params:{comparison:"\
>=",limit:-45}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/tilt",schemaPath:"#/properties/tilt/type",keyword:"type",params:{type:"number"}};e===
null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return H.errors=e,
t===0}function g(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(typeof s=="string"){if(c(s)>2e4){let r={instancePath:m,schemaPath:"\
#/maxLength",keyword:"maxLength",params:{limit:2e4}};e===null?e=[r]:e.push(r),t++}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"s\
tring"}};e===null?e=[r]:e.push(r),t++}return g.errors=e,t===0}function V(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;
if(s&&typeof s=="object"&&!Array.isArray(s)){for(let r in s)if(!_.call(M.properties,r)){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"addit\
ionalProperties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.scan!==void 0){let r=s.scan;if(typeof r=="string"){if(c(r)<1){let i={instancePath:m+
"/scan",schemaPath:"#/properties/scan/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/scan",schemaPath:"\
#/properties/scan/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.scans!==void 0){let r=s.scans;if(Array.isArray(r)){if(r.length>
64){let n={instancePath:m+"/scans",schemaPath:"#/properties/scans/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(r.length<1){let n={
instancePath:m+"/scans",schemaPath:"#/properties/scans/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<
i;n++){let a=r[n];if(typeof a=="string"){if(c(a)<1){let p={instancePath:m+"/scans/"+n,schemaPath:"#/properties/scans/items/minLength",keyword:"minLength",params:{
limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/scans/"+n,schemaPath:"#/properties/scans/items/type",keyword:"type",params:{type:"string"}};
e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(
i),t++}}if(s.unused!==void 0){let r=s.unused;if(Array.isArray(r)){if(r.length>64){let n={instancePath:m+"/unused",schemaPath:"#/properties/unused/maxItems",keyword:"\
maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(r.length<1){let n={instancePath:m+"/unused",schemaPath:"#/properties/unused/minItems",keyword:"minI\
tems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++){let a=r[n];if(typeof a=="string"){if(c(a)<1){let p={instancePath:m+"/un\
used/"+n,schemaPath:"#/properties/unused/items/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[p]:e.push(p),t++}}else{let p={instancePath:m+"/unuse\
d/"+n,schemaPath:"#/properties/unused/items/type",keyword:"type",params:{type:"string"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/unused",schemaPath:"\
#/properties/unused/type",keyword:"type",params:{type:"array"}};e===null?e=[i]:e.push(i),t++}}if(s.join!==void 0){let r=s.join;if(Array.isArray(r)){if(r.length>
64){let n={instancePath:m+"/join",schemaPath:"#/properties/join/maxItems",keyword:"maxItems",params:{limit:64}};e===null?e=[n]:e.push(n),t++}if(r.length<1){let n={
instancePath:m+"/join",schemaPath:"#/properties/join/minItems",keyword:"minItems",params:{limit:1}};e===null?e=[n]:e.push(n),t++}let i=r.length;for(let n=0;n<i;n++){
let a=r[n];if(Array.isArray(a)){if(a.length>3){let l={instancePath:m+"/join/"+n,schemaPath:"#/properties/join/items/maxItems",keyword:"maxItems",params:{limit:3}};
e===null?e=[l]:e.push(l),t++}if(a.length<3){let l={instancePath:m+"/join/"+n,schemaPath:"#/properties/join/items/minItems",keyword:"minItems",params:{limit:3}};
e===null?e=[l]:e.push(l),t++}let p=a.length;if(p>0){let l=a[0];if(typeof l=="number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:m+"/join/"+n+"/0",schemaPath:"\
#/properties/join/items/items/0/maximum",keyword:"maximum",params:{comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:m+
"/join/"+n+"/0",schemaPath:"#/properties/join/items/items/0/minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={
instancePath:m+"/join/"+n+"/0",schemaPath:"#/properties/join/items/items/0/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>1){let l=a[1];
if(typeof l=="number"&&isFinite(l)){if(l>2e5||isNaN(l)){let u={instancePath:m+"/join/"+n+"/1",schemaPath:"#/properties/join/items/items/1/maximum",keyword:"maxi\
mum",params:{comparison:"<=",limit:2e5}};e===null?e=[u]:e.push(u),t++}if(l<-2e5||isNaN(l)){let u={instancePath:m+"/join/"+n+"/1",schemaPath:"#/properties/join/i\
tems/items/1/minimum",keyword:"minimum",params:{comparison:">=",limit:-2e5}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:m+"/join/"+n+"/1",schemaPath:"\
#/properties/join/items/items/1/type",keyword:"type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}if(p>2){let l=a[2];if(typeof l=="number"&&isFinite(l)){
if(l>45||isNaN(l)){let u={instancePath:m+"/join/"+n+"/2",schemaPath:"#/properties/join/items/items/2/maximum",keyword:"maximum",params:{comparison:"<=",limit:45}};
e===null?e=[u]:e.push(u),t++}if(l<-45||isNaN(l)){let u={instancePath:m+"/join/"+n+"/2",schemaPath:"#/properties/join/items/items/2/minimum",keyword:"minimum",params:{
comparison:">=",limit:-45}};e===null?e=[u]:e.push(u),t++}}else{let u={instancePath:m+"/join/"+n+"/2",schemaPath:"#/properties/join/items/items/2/type",keyword:"\
type",params:{type:"number"}};e===null?e=[u]:e.push(u),t++}}}else{let p={instancePath:m+"/join/"+n,schemaPath:"#/properties/join/items/type",keyword:"type",params:{
type:"array"}};e===null?e=[p]:e.push(p),t++}}}else{let i={instancePath:m+"/join",schemaPath:"#/properties/join/type",keyword:"type",params:{type:"array"}};e===null?
e=[i]:e.push(i),t++}}if(s.area!==void 0&&(H(s.area,{instancePath:m+"/area",parentData:s,parentDataProperty:"area",rootData:o})||(e=e===null?H.errors:e.concat(H.
errors),t=e.length)),s.turn!==void 0){let r=s.turn;if(!(r===0||r===90||r===180||r===270)){let i={instancePath:m+"/turn",schemaPath:"#/properties/turn/enum",keyword:"\
enum",params:{allowedValues:M.properties.turn.enum}};e===null?e=[i]:e.push(i),t++}}if(s.mirror!==void 0&&typeof s.mirror!="boolean"){let r={instancePath:m+"/mir\
ror",schemaPath:"#/properties/mirror/type",keyword:"type",params:{type:"boolean"}};e===null?e=[r]:e.push(r),t++}if(s.skip!==void 0&&typeof s.skip!="boolean"){let r={
instancePath:m+"/skip",schemaPath:"#/properties/skip/type",keyword:"type",params:{type:"boolean"}};e===null?e=[r]:e.push(r),t++}if(s.light!==void 0&&(N(s.light,
{instancePath:m+"/light",parentData:s,parentDataProperty:"light",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),s.negative!==void 0&&(d(s.negative,
{instancePath:m+"/negative",parentData:s,parentDataProperty:"negative",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),s.positive!==void 0&&(P(
s.positive,{instancePath:m+"/positive",parentData:s,parentDataProperty:"positive",rootData:o})||(e=e===null?P.errors:e.concat(P.errors),t=e.length)),s.spots!==void 0&&
(b(s.spots,{instancePath:m+"/spots",parentData:s,parentDataProperty:"spots",rootData:o})||(e=e===null?b.errors:e.concat(b.errors),t=e.length)),s.title!==void 0){
let r=s.title;if(typeof r=="string"){if(c(r)>200){let i={instancePath:m+"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};
e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/title",schemaPath:"#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(
i),t++}}s.note!==void 0&&(g(s.note,{instancePath:m+"/note",parentData:s,parentDataProperty:"note",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length))}else{
let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return V.errors=e,t===0}var ie=new RegExp("^[0-9a-f]{64}$","u");function Z(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="obje\
ct"&&!Array.isArray(s)){if(s.size===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"size"}};e===null?e=[r]:e.push(
r),t++}if(s.sha256===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"sha256"}};e===null?e=[r]:e.push(r),t++}for(let r in s)
if(!(r==="size"||r==="sha256")){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};e===null?
e=[i]:e.push(i),t++}if(s.size!==void 0){let r=s.size;if(!(typeof r=="number"&&!(r%1)&&!isNaN(r)&&isFinite(r))){let i={instancePath:m+"/size",schemaPath:"#/prope\
rties/size/type",keyword:"type",params:{type:"integer"}};e===null?e=[i]:e.push(i),t++}if(typeof r=="number"&&isFinite(r)){if(r>9007199254740991||isNaN(r)){let i={
instancePath:m+"/size",schemaPath:"#/properties/size/maximum",keyword:"maximum",params:{comparison:"<=",limit:9007199254740991}};e===null?e=[i]:e.push(i),t++}if(r<
0||isNaN(r)){let i={instancePath:m+"/size",schemaPath:"#/properties/size/minimum",keyword:"minimum",params:{comparison:">=",limit:0}};e===null?e=[i]:e.push(i),t++}}}
if(s.sha256!==void 0){let r=s.sha256;if(typeof r=="string"){if(!ie.test(r)){let i={instancePath:m+"/sha256",schemaPath:"#/properties/sha256/pattern",keyword:"pa\
ttern",params:{pattern:"^[0-9a-f]{64}$"}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/sha256",schemaPath:"#/properties/sha256/type",keyword:"type",
params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(
r),t++}return Z.errors=e,t===0}var B=new RegExp("^[0-9]{1,3}[A-Z]?$","u");function G(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,
t=0;if(s&&typeof s=="object"&&!Array.isArray(s)){if(s.version===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"\
version"}};e===null?e=[r]:e.push(r),t++}for(let r in s)if(!_.call(Q.properties,r)){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"additional\
Properties",params:{additionalProperty:r}};e===null?e=[i]:e.push(i),t++}if(s.version!==void 0&&(w(s.version,{instancePath:m+"/version",parentData:s,parentDataProperty:"\
version",rootData:o})||(e=e===null?w.errors:e.concat(w.errors),t=e.length)),s.title!==void 0){let r=s.title;if(typeof r=="string"){if(c(r)>200){let i={instancePath:m+
"/title",schemaPath:"#/properties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/title",schemaPath:"\
#/properties/title/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.stock!==void 0){let r=s.stock;if(typeof r=="string"){if(c(r)<
1){let i={instancePath:m+"/stock",schemaPath:"#/properties/stock/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+
"/stock",schemaPath:"#/properties/stock/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.film!==void 0&&(k(s.film,{instancePath:m+
"/film",parentData:s,parentDataProperty:"film",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length)),s.format!==void 0&&(x(s.format,{instancePath:m+
"/format",parentData:s,parentDataProperty:"format",rootData:o})||(e=e===null?x.errors:e.concat(x.errors),t=e.length)),s.exposed!==void 0&&(D(s.exposed,{instancePath:m+
"/exposed",parentData:s,parentDataProperty:"exposed",rootData:o})||(e=e===null?D.errors:e.concat(D.errors),t=e.length)),s.scans!==void 0){let r=s.scans;if(typeof r==
"string"){if(c(r)<1){let i={instancePath:m+"/scans",schemaPath:"#/properties/scans/minLength",keyword:"minLength",params:{limit:1}};e===null?e=[i]:e.push(i),t++}}else{
let i={instancePath:m+"/scans",schemaPath:"#/properties/scans/type",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.light!==void 0&&(N(
s.light,{instancePath:m+"/light",parentData:s,parentDataProperty:"light",rootData:o})||(e=e===null?N.errors:e.concat(N.errors),t=e.length)),s.negative!==void 0&&
(d(s.negative,{instancePath:m+"/negative",parentData:s,parentDataProperty:"negative",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=e.length)),s.positive!==
void 0&&(P(s.positive,{instancePath:m+"/positive",parentData:s,parentDataProperty:"positive",rootData:o})||(e=e===null?P.errors:e.concat(P.errors),t=e.length)),
s.output!==void 0&&(v(s.output,{instancePath:m+"/output",parentData:s,parentDataProperty:"output",rootData:o})||(e=e===null?v.errors:e.concat(v.errors),t=e.length)),
s.frames!==void 0){let r=s.frames;if(r&&typeof r=="object"&&!Array.isArray(r)){for(let i in r)if(!B.test(i)){let n={instancePath:m+"/frames",schemaPath:"#/prope\
rties/frames/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:i}};e===null?e=[n]:e.push(n),t++}for(let i in r)B.test(i)&&(V(r[i],
{instancePath:m+"/frames/"+i.replace(/~/g,"~0").replace(/\//g,"~1"),parentData:r,parentDataProperty:i,rootData:o})||(e=e===null?V.errors:e.concat(V.errors),t=e.
length))}else{let i={instancePath:m+"/frames",schemaPath:"#/properties/frames/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}if(s.note!==
void 0&&(g(s.note,{instancePath:m+"/note",parentData:s,parentDataProperty:"note",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),t=e.length)),s.fingerprints!==
void 0){let r=s.fingerprints;if(r&&typeof r=="object"&&!Array.isArray(r))for(let i in r)Z(r[i],{instancePath:m+"/fingerprints/"+i.replace(/~/g,"~0").replace(/\//g,
"~1"),parentData:r,parentDataProperty:i,rootData:o})||(e=e===null?Z.errors:e.concat(Z.errors),t=e.length);else{let i={instancePath:m+"/fingerprints",schemaPath:"\
#/properties/fingerprints/type",keyword:"type",params:{type:"object"}};e===null?e=[i]:e.push(i),t++}}}else{let r={instancePath:m,schemaPath:"#/type",keyword:"ty\
pe",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return G.errors=e,t===0}var ae=J,se={type:"object",additionalProperties:!1,required:["version"],properties:{
version:{$ref:"#/definitions/version"},title:{type:"string",maxLength:200},film:{$ref:"#/definitions/film"},iso:{type:"number",minimum:.1,maximum:1e5},format:{$ref:"\
#/definitions/format"},process:{type:"string"},negative:{$ref:"#/definitions/negative"},positive:{$ref:"#/definitions/positive"},output:{$ref:"#/definitions/out\
puts"},note:{$ref:"#/definitions/note"}}};function J(s,{instancePath:m="",parentData:h,parentDataProperty:f,rootData:o=s}={}){let e=null,t=0;if(s&&typeof s=="ob\
ject"&&!Array.isArray(s)){if(s.version===void 0){let r={instancePath:m,schemaPath:"#/required",keyword:"required",params:{missingProperty:"version"}};e===null?e=
[r]:e.push(r),t++}for(let r in s)if(!_.call(se.properties,r)){let i={instancePath:m,schemaPath:"#/additionalProperties",keyword:"additionalProperties",params:{additionalProperty:r}};
e===null?e=[i]:e.push(i),t++}if(s.version!==void 0&&(w(s.version,{instancePath:m+"/version",parentData:s,parentDataProperty:"version",rootData:o})||(e=e===null?
w.errors:e.concat(w.errors),t=e.length)),s.title!==void 0){let r=s.title;if(typeof r=="string"){if(c(r)>200){let i={instancePath:m+"/title",schemaPath:"#/proper\
ties/title/maxLength",keyword:"maxLength",params:{limit:200}};e===null?e=[i]:e.push(i),t++}}else{let i={instancePath:m+"/title",schemaPath:"#/properties/title/t\
ype",keyword:"type",params:{type:"string"}};e===null?e=[i]:e.push(i),t++}}if(s.film!==void 0&&(k(s.film,{instancePath:m+"/film",parentData:s,parentDataProperty:"\
film",rootData:o})||(e=e===null?k.errors:e.concat(k.errors),t=e.length)),s.iso!==void 0){let r=s.iso;if(typeof r=="number"&&isFinite(r)){if(r>1e5||isNaN(r)){let i={
instancePath:m+"/iso",schemaPath:"#/properties/iso/maximum",keyword:"maximum",params:{comparison:"<=",limit:1e5}};e===null?e=[i]:e.push(i),t++}if(r<.1||isNaN(r)){
let i={instancePath:m+"/iso",schemaPath:"#/properties/iso/minimum",keyword:"minimum",params:{comparison:">=",limit:.1}};e===null?e=[i]:e.push(i),t++}}else{let i={
instancePath:m+"/iso",schemaPath:"#/properties/iso/type",keyword:"type",params:{type:"number"}};e===null?e=[i]:e.push(i),t++}}if(s.format!==void 0&&(x(s.format,
{instancePath:m+"/format",parentData:s,parentDataProperty:"format",rootData:o})||(e=e===null?x.errors:e.concat(x.errors),t=e.length)),s.process!==void 0&&typeof s.
process!="string"){let r={instancePath:m+"/process",schemaPath:"#/properties/process/type",keyword:"type",params:{type:"string"}};e===null?e=[r]:e.push(r),t++}s.
negative!==void 0&&(d(s.negative,{instancePath:m+"/negative",parentData:s,parentDataProperty:"negative",rootData:o})||(e=e===null?d.errors:e.concat(d.errors),t=
e.length)),s.positive!==void 0&&(P(s.positive,{instancePath:m+"/positive",parentData:s,parentDataProperty:"positive",rootData:o})||(e=e===null?P.errors:e.concat(
P.errors),t=e.length)),s.output!==void 0&&(v(s.output,{instancePath:m+"/output",parentData:s,parentDataProperty:"output",rootData:o})||(e=e===null?v.errors:e.concat(
v.errors),t=e.length)),s.note!==void 0&&(g(s.note,{instancePath:m+"/note",parentData:s,parentDataProperty:"note",rootData:o})||(e=e===null?g.errors:e.concat(g.errors),
t=e.length))}else{let r={instancePath:m,schemaPath:"#/type",keyword:"type",params:{type:"object"}};e===null?e=[r]:e.push(r),t++}return J.errors=e,t===0}export{ne as roll,ae as stock};
